import { expect, test } from "vitest";
import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { checkRecord, recordRules } from "../../src/cleaning/record/checkRecord.js";
import { clean, event, found, record, withEntry } from "./recordOfWeek.js";

test("a well-kept record has no findings", () => {
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
  "%s after hypochlorite without a flush is a danger, and the finding names the product",
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

test("a cast without a rinse after it is reported by its id", () => {
  const faults = checkRecord(record(clean.filter((_, i) => i !== 5)));
  expect(faults).toMatchObject([{ rule: "no-rinse-after-cast", cast: "001" }]);
});

test("a record without any cleaning gets one finding for that", () => {
  const faults = checkRecord(record(clean.slice(0, 5))).filter(
    ({ rule }) => rule === "no-rinse-after-cast",
  );
  expect(faults).toHaveLength(1);
  expect(faults[0]!.because).toMatch(/no rinse after any of 3 casts/);
});

test("every rule has a source and a unique name", () => {
  expect(new Set(recordRules.map(({ name }) => name)).size).toBe(recordRules.length);
  for (const { source } of recordRules) expect(source).not.toBe("");
});
