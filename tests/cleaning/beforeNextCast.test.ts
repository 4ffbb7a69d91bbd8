import { expect, test } from "vitest";
import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { cautionsByHazard, generalCautions } from "../../src/cleaning/cautions.js";
import {
  beforeNextCast,
  beforeNextCastText,
  type NextCastSettings,
} from "../../src/cleaning/record/beforeNextCast.js";
import { dueList } from "../../src/cleaning/record/dueList.js";
import type { MaintenanceRecord } from "../../src/cleaning/record/recordTimeline.js";

// An invented cruise of three casts; the last ended at 08:00 on 2 March.
const casts = [
  { id: "001", start: "2026-03-01T06:00:00Z", hours: 2 },
  { id: "002", start: "2026-03-01T16:00:00Z", hours: 2 },
  { id: "003", start: "2026-03-02T06:00:00Z", hours: 2 },
];
const at = (
  time: string,
  action: MaintenanceEvent["action"],
  more: Partial<MaintenanceEvent> = {},
) => ({ time: `2026-${time}:00Z`, action, ...more }) satisfies MaintenanceEvent;
const battery = { batteryVolts: 14.6, batteryCells: 10, batteryKind: "alkaline" } as const;

/** Nothing is left to do at 10:00 on 2 March. */
const allDone = [
  at("03-02T08:10", "air-reading", { cell: "primary", reading_mS_cm: 0 }),
  at("03-02T08:12", "air-reading", { cell: "secondary", reading_mS_cm: 0 }),
  at("03-02T08:20", "rinse", { drained: false, rinsed: true }),
  at("03-02T08:40", "battery", battery),
  at("03-02T09:00", "pre-cast-check"),
];
const record = (
  maintenance: readonly MaintenanceEvent[],
  now = "2026-03-02T10:00:00Z",
): MaintenanceRecord => ({
  maintenance,
  casts,
  instrument: { cells: ["primary", "secondary"] },
  now,
});
const whats = (given: MaintenanceRecord, settings?: NextCastSettings) =>
  beforeNextCast(given, settings).due.map(({ what }) => what);
const without = (...actions: readonly string[]) =>
  allDone.filter(({ action }) => !actions.includes(action));

test("nothing is due if all work is done", () => {
  expect(beforeNextCast(record(allDone)).due).toEqual([]);
});

test("work not done is due, in working order, each with its reason", () => {
  const { due } = beforeNextCast(
    record(
      [at("03-02T08:30", "plugs"), at("03-02T08:50", "housing-opened")],
      "2026-03-12T10:00:00Z",
    ),
    { air_C: -3 },
  );
  expect(due.map(({ what }) => what)).toEqual([
    expect.stringMatching(/^Drain both cells/),
    expect.stringMatching(/^Rinse both cells/),
    expect.stringMatching(/^Check both cells/),
    expect.stringMatching(/plugs out/),
    expect.stringMatching(/seals/),
    expect.stringMatching(/reading in air of both cells/),
    expect.stringMatching(/pre-cast check/),
  ]);
  for (const { because } of due) expect(because).toMatch(/\.$/);
});

test("a rinse of one cell leaves the other due, by name", () => {
  const one = at("03-02T08:20", "rinse", { cell: "primary", rinsed: true });
  expect(whats(record([...without("rinse"), one]))).toEqual([
    "Rinse the secondary cell with deionised water.",
  ]);
});

test("a wash that was not flushed is no rinse", () => {
  const wash = at("03-02T08:20", "wash", { rinsed: false });
  expect(whats(record([...without("rinse"), wash]))[0]).toMatch(/^Rinse both cells/);
});

test.each([
  ["dry for three days", { drained: true }, "03-05", /^Fill both cells with deionised water/],
  ["dry for hours", { drained: true }, "03-02", undefined],
  ["wet for six days", { drained: false }, "03-08", /^Change the water in both cells/],
  ["wet for two days", { drained: false }, "03-04", undefined],
  ["unsaid for three days", {}, "03-05", /^Check both cells: wet or dry/],
  ["dry by its note", { note: "left dry" }, "03-05", /^Fill both cells/],
] as const)("a cell kept %s", (_, more, day, expected) => {
  const rinse = at("03-02T08:20", "rinse", { rinsed: true, ...more });
  const others = without("rinse", "battery");
  const [first] = whats(record([...others, rinse], `2026-${day}T10:00:00Z`));
  if (expected === undefined) expect(first).toBeUndefined();
  else expect(first).toMatch(expected);
});

test("frost is mentioned only for a cell that may hold water, at 2 degree C or less", () => {
  const kept = (drained: boolean) =>
    record([...without("rinse"), at("03-02T08:20", "rinse", { rinsed: true, drained })]);
  expect(whats(kept(false), { air_C: -1 })[0]).toMatch(/^Drain both cells/);
  expect(whats(kept(false), { air_C: 2 })[0]).toMatch(/^Drain both cells/);
  expect(whats(kept(false), { air_C: 3 })).toEqual([]);
  expect(whats(kept(true), { air_C: -20 })).toEqual([]);
  expect(whats(kept(false))).toEqual([]);
  const frozen = at("03-02T09:10", "other", { note: "tubing frozen on deck" });
  expect(whats(record([...allDone, frozen]))[0]).toMatch(/^Look for cracks/);
});

test("a low pack is changed, a pack that may not last is checked, and a sound one is not due", () => {
  const volts = (...found: readonly number[]) =>
    record([
      ...without("battery"),
      ...found.map((batteryVolts, i) => ({
        ...battery,
        action: "battery" as const,
        afterCast: casts[i]!.id,
        time: casts[i]!.start.replace("00:00Z", "30:00Z").replace(
          /T(..)/,
          (_, h) => `T${String(Number(h) + 2).padStart(2, "0")}`,
        ),
        batteryVolts,
      })),
    ]);
  expect(whats(volts(14.8, 14.7, 14.6))).toEqual([]);
  expect(whats(volts(12.4, 12.2, 11.9))).toEqual(["Change the battery pack."]);
  expect(whats(volts(13.4, 13.0, 12.6))).toEqual([expect.stringMatching(/^Check the battery/)]);
  // More casts to come ask more of it.
  expect(whats(volts(14.8, 14.6, 14.4), { castsToCome: 30 })).toHaveLength(1);
  const { cautions } = beforeNextCast(volts(12.4, 12.2, 11.9));
  expect(cautions).toEqual(
    expect.arrayContaining([...cautionsByHazard.battery, ...cautionsByHazard["pressure-housing"]]),
  );
});

test("a record without a battery gets no battery check: a CTD on a sea cable has none", () => {
  const { due, battery: trend } = beforeNextCast(
    record(without("battery"), "2026-03-30T00:00:00Z"),
  );
  expect(trend).toBeUndefined();
  expect(JSON.stringify(due)).not.toMatch(/battery/i);
});

test("a reading in air is due for a cell without one in the last week", () => {
  const primary = allDone[0]!;
  expect(whats(record([...without("air-reading"), primary]))).toEqual([
    expect.stringMatching(/reading in air of the secondary cell/),
  ]);
  const old = { ...primary, time: "2026-02-20T08:00:00Z" };
  expect(whats(record([...allDone.slice(1), old]))).toEqual([
    expect.stringMatching(/reading in air of the primary cell/),
  ]);
});

test("the text gives due work with reasons, the battery and every caution once; dueList starts with the same", () => {
  const given = record([at("03-02T08:40", "battery", { ...battery, batteryVolts: 11 })]);
  const list = beforeNextCast(given);
  const text = beforeNextCastText(list);
  for (const { what, because } of list.due) expect(text).toContain(`- ${what} ${because}`);
  expect(text).toMatch(/Battery \(alkaline\): 11 V/);
  for (const caution of generalCautions) expect(text.split(caution)).toHaveLength(2);
  expect(dueList(given).slice(0, list.due.length)).toEqual(list.due);
  expect(JSON.parse(JSON.stringify(list))).toEqual(list);
});
