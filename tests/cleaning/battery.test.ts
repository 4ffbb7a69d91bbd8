import { expect, test } from "vitest";
import type { BatteryKind, MaintenanceEvent } from "../../src/cast/maintenance.js";
import { batterySentence, batteryTrend } from "../../src/cleaning/record/battery.js";
import { timelineOf } from "../../src/cleaning/record/recordTimeline.js";
import { seeded } from "../evidence/seeded.js";

const id = (i: number) => String(i + 1).padStart(3, "0");

/** One check after each of some casts, with so many casts done since the last of them. */
function trendOf(
  volts: readonly number[],
  castsSince = 0,
  kind: BatteryKind = "alkaline",
  more: Partial<MaintenanceEvent> = {},
) {
  const casts = Array.from({ length: volts.length + castsSince }, (_, i) => ({ id: id(i) }));
  const maintenance = volts.map(
    (batteryVolts, i): MaintenanceEvent => ({
      action: "battery",
      afterCast: id(i),
      batteryVolts,
      batteryCells: 10,
      batteryKind: kind,
      ...(i === volts.length - 1 ? more : {}),
    }),
  );
  return batteryTrend(
    timelineOf({ maintenance, casts, instrument: {}, now: "2031-05-08T12:00:00Z" }),
  );
}

test("14.4, 14.3, 14.2 V fall by 0.1 ± 0.058 V a cast (by hand), extrapolated to 6 casts at most", () => {
  const trend = trendOf([14.4, 14.3, 14.2])!;
  expect(trend).toMatchObject({ volts: 14.2, least: 12, checks: 3, castsSince: 0 });
  expect(trend.perCast!.volts).toBeCloseTo(-0.1, 9);
  // Readings within 0.1 V (0.01 V a cell), worth two, and one degree of freedom that shows none: 0.1 sqrt(2 / 3);
  // over x = -1, 0, 1 the slope has sd 0.0816 / sqrt(2) = 0.0577.
  expect(trend.perCast!.standardUncertainty).toBeCloseTo(0.0577, 4);
  expect(trend.castsLeft).toBe(6);
});

test("at least 95 of 100 packs with a steadily falling voltage last the predicted number of casts", () => {
  const { uniform, normal } = seeded(21);
  let kept = 0;
  let told = 0;
  const packs = 2000;
  for (let i = 0; i < packs; i++) {
    const [from, perCast, n] = [
      12.6 + 2 * uniform(),
      -0.02 - 0.3 * uniform(),
      3 + Math.floor(6 * uniform()),
    ];
    const volts = Array.from({ length: n }, (_, k) => from + perCast * k + 0.1 * normal());
    const { castsLeft } = trendOf(volts)!;
    if (castsLeft === undefined || castsLeft === 0) continue;
    told++;
    if (from + perCast * (n - 1 + castsLeft) >= 12) kept++;
  }
  expect(told).toBeGreaterThan(packs / 3);
  expect(kept / told).toBeGreaterThan(0.95);
});

test("a pack that falls 0.4 V a cast to just above its least voltage has no sure cast left", () => {
  const trend = trendOf([13.2, 12.8, 12.4])!;
  expect(trend.castsLeft).toBe(0);
  expect(batterySentence(trend)).toMatch(/may not last the next cast/);
});

test('a pack with a higher voltage than at the check before, or with a note "new", starts a new series', () => {
  expect(trendOf([13.0, 12.8, 14.9])).toMatchObject({ checks: 1, volts: 14.9 });
  expect(trendOf([13.0, 12.8, 12.9], 0, "alkaline", { note: "new pack" })!.checks).toBe(1);
  expect(trendOf([13.0, 12.8, 12.85])!.checks).toBe(3);
});

test("the voltage of lithium cells predicts nothing, and the sentence says to count hours against the label", () => {
  for (const kind of ["lithium", "nickel-metal-hydride"] as const) {
    const trend = trendOf([36.5, 36.4, 36.3], 0, kind)!;
    expect(trend.castsLeft).toBeUndefined();
    expect(batterySentence(trend)).toMatch(/drop suddenly.*label/);
  }
});

test("one check is no trend, and an old trend is not carried on", () => {
  expect(trendOf([14.4])!.perCast).toBeUndefined();
  expect(trendOf([14.4, 14.3], 3)!.castsLeft).toBeUndefined();
  expect(trendOf([14.4, 14.3], 2)!.castsLeft).toBeDefined();
  expect(trendOf([])).toBeUndefined();
});
