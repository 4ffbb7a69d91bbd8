import fc from "fast-check";
import { expect, test } from "vitest";
import { type MaintenanceEvent, maintenanceActions } from "../../src/cast/maintenance.js";
import { beforeNextCast, beforeNextCastText } from "../../src/cleaning/record/beforeNextCast.js";
import { checkRecord } from "../../src/cleaning/record/checkRecord.js";
import { dueList } from "../../src/cleaning/record/dueList.js";
import { casts, clean, event, found, record, withEntry } from "./recordOfWeek.js";

test("six days of storage without cleaning and plugs are reported", () => {
  const open = record(clean.filter(({ action }) => action !== "plugs"));
  expect(checkRecord(open)).toMatchObject([{ rule: "long-storage", cast: "003", line: 10 }]);
  const dirty = withEntry(7, event("03-02T08:20", "rinse", { minutes: 5 }));
  expect(checkRecord(dirty)[0]!.because).toMatch(
    /for 6 days and was not cleaned with detergent\.$/,
  );
});

test("a pack below its working voltage is reported before a long cast, not before short ones", () => {
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

test("a housing that was opened needs its seals inspected before the next cast", () => {
  const unsealed = record(clean.filter(({ action }) => action !== "seals"));
  expect(found(unsealed)).toEqual([{ rule: "seals-not-inspected", severity: "warning", line: 3 }]);
});

test("a calibration of a cell is out of date after a year; an exchange brings a new one", () => {
  const old = { ...clean[0]!, time: "2024-10-01T09:00:00Z" };
  expect(found(withEntry(0, old))).toHaveLength(2);
  const other: MaintenanceEvent = {
    time: "2026-02-01T00:00:00Z",
    action: "exchange",
    cell: "secondary",
    serial: "C-31",
  };
  expect(found(withEntry(0, old, other))).toEqual([
    { rule: "calibration-out-of-date", severity: "warning", line: 2 },
  ]);
  expect(found(record(clean.slice(1))).map(({ severity }) => severity)).toEqual(["note", "note"]);
});

test("an exchange or a calibration that names no serial number is noted, at its line", () => {
  const { serial: _, ...bare } = clean[0]!;
  const found = checkRecord(withEntry(0, bare)).filter(({ rule }) => rule === "no-serial");
  expect(found).toMatchObject([{ severity: "note", line: 2 }]);
  expect(found[0]!.because).toMatch(/calibration names no serial number/);
});

test("the calibration of a spare counts from its own day, not from the day it was fitted", () => {
  const fitted = { time: "2026-02-01T00:00:00Z", action: "exchange", cell: "secondary" } as const;
  const late = (calibrated: string, cellCalibrated: string) => {
    const { instrument, ...rest } = record([{ ...fitted, serial: "C-31" }, ...clean.slice(1)]);
    const spares = [{ kind: "cell", serial: "C-31", calibrated }] as const;
    const sensors = { primary: { cell: "C-17", cellCalibrated } };
    return checkRecord({ ...rest, instrument: { ...instrument, spares, sensors } })
      .filter(({ rule }) => rule === "calibration-out-of-date")
      .map(({ because }) => because);
  };
  expect(late("2025-12-01", "2025-12-01")).toEqual([]);
  expect(late("2024-12-01", "2025-12-01").join()).toMatch(
    /secondary cell's calibration is 46[23] days/,
  );
  expect(late("2025-12-01", "2024-12-01").join()).toMatch(
    /primary cell's calibration is 46[23] days/,
  );
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

test("any record is checked and its due list is whole sentences", () => {
  const text = fc.oneof(fc.string(), fc.constantFrom("1 %", "1000 ppm", "bleach", "acid", "soap"));
  const entries = fc.array(
    fc.record(
      {
        action: fc.constantFrom(...maintenanceActions),
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
    { seed: 11, numRuns: 300 },
  );
});
