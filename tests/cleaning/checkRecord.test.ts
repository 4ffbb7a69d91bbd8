import fc from "fast-check";
import { expect, test } from "vitest";
import { intensityNames, type MaintenanceEvent, otherActions } from "../../src/cast/maintenance.js";
import { beforeNextCast, beforeNextCastText } from "../../src/cleaning/record/beforeNextCast.js";
import { checkRecord, recordRules } from "../../src/cleaning/record/checkRecord.js";
import { dueList } from "../../src/cleaning/record/dueList.js";
import type { MaintenanceRecord } from "../../src/cleaning/record/recordTimeline.js";

// An invented week: three casts, a pause of six days, a fourth. Lines are as in a file with one heading.
const casts = [
  { id: "001", start: "2026-03-01T08:00:00Z", hours: 2 },
  { id: "002", start: "2026-03-01T16:00:00Z", hours: 5 },
  { id: "003", start: "2026-03-02T06:00:00Z", hours: 2 },
  { id: "004", start: "2026-03-08T06:00:00Z", hours: 2 },
];
const instrument = {
  cells: ["primary", "secondary"],
  flow: "pumped",
  oxygenSensorInLine: true,
} as const;
const now = "2026-03-08T12:00:00Z";

function event(
  time: string,
  action: MaintenanceEvent["action"],
  more: Partial<MaintenanceEvent> = {},
): MaintenanceEvent {
  return { time: `2026-${time}:00Z`, action, ...more };
}

const clean: readonly MaintenanceEvent[] = [
  event("01-10T09:00", "calibration"),
  event("03-01T06:00", "housing-opened"),
  event("03-01T06:20", "battery", {
    batteryVolts: 14.6,
    batteryCells: 10,
    batteryKind: "alkaline",
  }),
  event("03-01T06:40", "seals"),
  event("03-01T07:00", "pre-cast-check"),
  event("03-01T10:20", "rinse", { minutes: 5, rinsed: true }),
  event("03-01T21:20", "disinfect", {
    minutes: 75,
    solution: "sodium hypochlorite",
    concentration: "1000 ppm",
    soaked: true,
    oxygenSensorOut: true,
    drained: true,
    rinsed: true,
  }),
  event("03-02T08:20", "wash", {
    minutes: 15,
    solution: "detergent in deionised water",
    concentration: "0.1 %",
    rinsed: true,
  }),
  event("03-02T09:00", "plugs"),
  event("03-02T09:10", "storage"),
  event("03-08T08:30", "rinse", { minutes: 5, rinsed: true }),
];

const record = (maintenance: readonly MaintenanceEvent[]): MaintenanceRecord => ({
  maintenance: maintenance.map((entry, i) => ({ ...entry, line: i + 2 })),
  casts,
  instrument,
  now,
});

/** The clean record with one entry replaced, left out (no event) or put in after it. */
function withEntry(index: number, ...entries: readonly MaintenanceEvent[]): MaintenanceRecord {
  return record([...clean.slice(0, index), ...entries, ...clean.slice(index + 1)]);
}
const found = (given: MaintenanceRecord) =>
  checkRecord(given).map(({ rule, severity, line }) => ({ rule, severity, line }));

test("a well-kept record raises nothing", () => {
  expect(checkRecord(record(clean))).toEqual([]);
});

test("a cleaning with no final flush is found, unless a rinse follows before the next cast", () => {
  const unflushed = { ...clean[7]!, rinsed: false, drained: true };
  expect(found(withEntry(7, unflushed))).toEqual([
    { rule: "no-final-flush", severity: "warning", line: 9 },
  ]);
  expect(found(withEntry(7, unflushed, event("03-02T08:40", "rinse", { minutes: 5 })))).toEqual([]);
  const { rinsed: _, ...unsaid } = clean[7]!;
  expect(found(withEntry(7, unsaid))).toEqual([
    { rule: "no-final-flush", severity: "note", line: 9 },
  ]);
});

test("a rinse of the other cell is no flush of this one", () => {
  const unflushed: MaintenanceEvent = {
    ...clean[7]!,
    cell: "primary",
    rinsed: false,
    drained: true,
  };
  const other = event("03-02T08:40", "rinse", { minutes: 5, cell: "secondary" });
  expect(found(withEntry(7, unflushed, other))).toMatchObject([{ rule: "no-final-flush" }]);
});

test("detergent and hypochlorite left standing with an oxygen sensor in line are found", () => {
  const standing = { ...clean[7]!, soaked: true };
  expect(found(withEntry(7, standing))).toEqual([
    { rule: "left-standing-in-oxygen-sensor", severity: "warning", line: 9 },
  ]);
  const { oxygenSensorOut: _, ...sensorIn } = clean[6]!;
  expect(found(withEntry(6, sensorIn))).toMatchObject([{ line: 8 }]);
  const without = { ...withEntry(7, standing), instrument: { oxygenSensorInLine: false } };
  expect(checkRecord(without)).toEqual([]);
});

test.each([
  ["1 % hypochlorite is ten times too strong", 6, "1 %", "warning"],
  ["1 % detergent is what a soak has", 7, "1 %", undefined],
  ["5 % detergent is too strong", 7, "5 %", "warning"],
  ["a concentration in no known unit is noted", 7, "two drops", "note"],
  ["1000 mg/l hypochlorite is 1000 ppm", 6, "1000 mg/l", undefined],
  ["5000 ppm hypochlorite is too strong", 6, "5000 ppm", "warning"],
  // 500 ppm of household bleach, 1250 ppm of the trade's 12.5 %: more than a tenth over the ladder's 1000.
  ["1:100 of hypochlorite is too strong by some stocks", 6, "1:100", "note"],
  ["1:10 of hypochlorite is too strong by any stock", 6, "1:10", "warning"],
  ["1+999 of hypochlorite is weak by any stock", 6, "1+999", undefined],
  ["1 ml in 1 l of detergent is what a wash has", 7, "1 ml in 1 l", undefined],
  ["1 in 20 of detergent is too strong", 7, "1 in 20", "warning"],
  ["5 to 10 % is a range, of which the upper end is read", 7, "5 to 10 %", "warning"],
] as const)("%s", (_, index, concentration, severity) => {
  expect(found(withEntry(index, { ...clean[index]!, concentration }))).toEqual(
    severity === undefined ? [] : [{ rule: "too-strong", severity, line: index + 2 }],
  );
});

test("hypochlorite followed by acid without a flush is a danger, with one it is not", () => {
  const acid = event("03-01T23:00", "descale", {
    minutes: 60,
    solution: "hydrochloric acid",
    concentration: "0.1 mol/l",
    rinsed: true,
  });
  const unflushed = { ...clean[6]!, rinsed: false };
  expect(found(withEntry(6, unflushed, acid))).toContainEqual({
    rule: "dangerous-mixture",
    severity: "danger",
    line: 9,
  });
  expect(found(withEntry(6, clean[6]!, acid))).toEqual([]);
  const rinse = event("03-01T22:45", "rinse", { minutes: 5 });
  expect(found(withEntry(6, unflushed, rinse, acid))).toEqual([]);
  const both = { ...acid, solution: "bleach and vinegar" };
  expect(found(withEntry(6, both)).map(({ rule }) => rule)).toContain("dangerous-mixture");
});

test.each([
  ["glass cleaner", /chloramines/, "Washington State Department of Health, advice on bleach"],
  ["isopropanol", /vapours/, "from memory"],
  ["hydrogen peroxide 3 %", /oxygen and heat/, "from memory"],
  ["citric 2 %", /chlorine/, "[CDC1991]"],
])(
  "%s after hypochlorite that was not flushed is a danger, with what it gives",
  (solution, gives, source) => {
    const unflushed = { ...clean[6]!, rinsed: false };
    const other = event("03-01T23:00", "other", { solution, rinsed: true });
    const [danger, ...more] = checkRecord(withEntry(6, unflushed, other)).filter(
      ({ severity }) => severity === "danger",
    );
    expect(more).toEqual([]);
    expect(danger).toMatchObject({ rule: "dangerous-mixture", line: 9, source });
    expect(danger!.because).toMatch(gives);
    expect(found(withEntry(6, clean[6]!, other)).map(({ severity }) => severity)).not.toContain(
      "danger",
    );
  },
);

test("a cast with no rinse after it is found, by its name", () => {
  const faults = checkRecord(record(clean.filter((_, i) => i !== 5)));
  expect(faults).toMatchObject([{ rule: "no-rinse-after-cast", cast: "001" }]);
});

test("a record with no cleaning at all says so once", () => {
  const faults = checkRecord(record(clean.slice(0, 5))).filter(
    ({ rule }) => rule === "no-rinse-after-cast",
  );
  expect(faults).toHaveLength(1);
  expect(faults[0]!.because).toMatch(/no rinse after any of 3 casts/);
});

test("six days of storage want the cell cleaned and closed off", () => {
  const open = record(clean.filter(({ action }) => action !== "plugs"));
  expect(checkRecord(open)).toMatchObject([{ rule: "long-storage", cast: "003", line: 10 }]);
  const dirty = withEntry(7, event("03-02T08:20", "rinse", { minutes: 5 }));
  expect(checkRecord(dirty)[0]!.because).toMatch(
    /for 6 days and was not cleaned with detergent\.$/,
  );
});

test("a pack below its working voltage before a long cast is found, before short ones it is not", () => {
  // Ten alkaline cells at 1.15 V.
  const low = { ...clean[2]!, batteryVolts: 11.5 };
  expect(found(withEntry(2, low))).toEqual([
    { rule: "weak-battery", severity: "warning", line: 4 },
  ]);
  const short = { ...withEntry(2, low), casts: casts.map((cast) => ({ ...cast, hours: 2 })) };
  expect(found(short)).toEqual([]);
  const unsaid = event("03-01T06:20", "battery", { batteryVolts: 11.5 });
  expect(found(withEntry(2, unsaid))).toEqual([
    { rule: "weak-battery", severity: "note", line: 4 },
  ]);
});

test("a housing that was opened wants its seals inspected before the next cast", () => {
  const unsealed = record(clean.filter(({ action }) => action !== "seals"));
  expect(found(unsealed)).toEqual([{ rule: "seals-not-inspected", severity: "warning", line: 3 }]);
});

test("a calibration is out of date after a year, by cell; an exchange brings another", () => {
  const old = { ...clean[0]!, time: "2024-10-01T09:00:00Z" };
  expect(found(withEntry(0, old))).toHaveLength(2);
  const other: MaintenanceEvent = {
    time: "2026-02-01T00:00:00Z",
    action: "exchange",
    cell: "secondary",
  };
  expect(found(withEntry(0, old, other))).toEqual([
    { rule: "calibration-out-of-date", severity: "warning", line: 2 },
  ]);
  expect(found(record(clean.slice(1))).map(({ severity }) => severity)).toEqual(["note", "note"]);
});

test.each([
  ["a time still to come", event("03-09T10:00", "rinse"), "time-in-the-future"],
  ["a time that is none", { time: "yesterday", action: "rinse" }, "no-time"],
  ["no time and no cast", { action: "rinse" }, "no-time"],
  ["a cast that is not there", { afterCast: "099", action: "rinse" }, "unknown-cast"],
  [
    "a time before the cast it is said to follow",
    event("03-01T15:00", "rinse", { afterCast: "002" }),
    "contradicts-cast",
  ],
  [
    "a time after the next cast had begun",
    event("03-01T17:00", "rinse", { afterCast: "001" }),
    "contradicts-cast",
  ],
  ["a cleaning while the cast is in the water", event("03-01T17:00", "rinse"), "contradicts-cast"],
  [
    "a cleaning that lasts into the next cast",
    event("03-01T15:30", "soak", { minutes: 45, rinsed: true, oxygenSensorOut: true }),
    "contradicts-cast",
  ],
  [
    "two cleanings of one cell at once",
    event("03-01T21:50", "wash", { minutes: 10, rinsed: true }),
    "overlap",
  ],
] as const)("%s is an error with its line", (_, entry, rule) => {
  expect(found(record([...clean, entry]))).toContainEqual({
    rule,
    severity: "error",
    line: clean.length + 2,
  });
});

test("cleanings of different cells may go on at once", () => {
  const cells = (["primary", "secondary"] as const).map((cell) => ({ ...clean[6]!, cell }));
  expect(found(withEntry(6, ...cells))).toEqual([]);
});

test("entries without a time keep the place they have in the file", () => {
  const untimed = clean.map(({ time: _, ...entry }, i) => ({
    ...entry,
    ...(i < 5
      ? { time: clean[i]!.time! }
      : { afterCast: ["001", "002", "003", "003", "003", "004"][i - 5]! }),
  }));
  expect(found(record(untimed))).toEqual([]);
});

test("every rule says what it rests on, and has a name of its own", () => {
  expect(new Set(recordRules.map(({ name }) => name)).size).toBe(recordRules.length);
  for (const { source } of recordRules) expect(source).not.toBe("");
});

test("at the end of the leg the cell is soaked and closed off, before a transit washed and closed off", () => {
  const by = (when: string) =>
    dueList(record(clean))
      .filter((due) => due.when === when)
      .map(({ what }) => what.split(" ")[0]);
  expect(by("at the end of the leg")).toEqual(["Soak", "Close", "Have"]);
  expect(by("before a transit")).toEqual(["Wash", "Close"]);
});

test("a calibration that runs out is due at the end of the leg, by cell", () => {
  const old = { ...clean[0]!, time: "2024-10-01T09:00:00Z" };
  const due = dueList(withEntry(0, old)).map(({ what }) => what);
  expect(due).toContain("Send the primary cell for calibration.");
  expect(due).toContain("Send the secondary cell for calibration.");
});

test("whatever is written down, it is checked and what is due is listed, with no word amiss", () => {
  const text = fc.oneof(fc.string(), fc.constantFrom("1 %", "1000 ppm", "bleach", "acid", "soap"));
  const entries = fc.array(
    fc.record(
      {
        action: fc.constantFrom(...intensityNames, ...otherActions),
        time: fc.oneof(fc.string(), fc.constantFrom(...clean.map(({ time }) => time!))),
        afterCast: fc.constantFrom("001", "003", "nowhere"),
        cell: fc.constantFrom("primary" as const, "secondary" as const),
        solution: text,
        concentration: text,
        minutes: fc.double(),
        soaked: fc.boolean(),
        rinsed: fc.boolean(),
        batteryVolts: fc.double(),
        batteryCells: fc.integer(),
        batteryKind: fc.constantFrom("alkaline" as const, "lithium" as const),
      },
      { requiredKeys: ["action"] },
    ),
    { maxLength: 8 },
  );
  fc.assert(
    fc.property(entries, fc.nat(4), (maintenance, n) => {
      const given = { ...record(maintenance), casts: casts.slice(0, n) };
      const lines = checkRecord(given).map(({ line }) => line ?? Number.POSITIVE_INFINITY);
      expect(lines).toEqual(lines.toSorted((a, b) => (a < b ? -1 : a > b ? 1 : 0)));
      const next = beforeNextCast(given, { air_C: -5 });
      expect(
        `${beforeNextCastText(next)} ${dueList(given).map(({ because }) => because)}`,
      ).not.toMatch(/undefined|null|Infinity/);
      JSON.stringify(next);
    }),
    { seed: 11, numRuns: 500 },
  );
});
