import { describe, expect, it } from "vitest";
import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { airZeroEvidence } from "../../src/evidence/airZero.js";

const written = (
  reading_uS_cm: number,
  more: Partial<MaintenanceEvent> = {},
): MaintenanceEvent => ({
  action: "air-reading",
  afterCast: "001",
  cell: "primary",
  reading_mS_cm: reading_uS_cm / 1000,
  ...more,
});
const record = (...after: MaintenanceEvent[]) =>
  airZeroEvidence("001", "primary", undefined, { before: [], after });
const sd = ({ observations }: ReturnType<typeof record>) =>
  observations.map(({ variance_ppm2 }) => Math.sqrt(variance_ppm2));
const clean = { rinsed: true, drained: true };

describe("a reading in air that was written down", () => {
  it("is the offset of its cell in uS/cm, and no gain", () => {
    const { observations } = record(written(7, clean));
    expect(observations).toHaveLength(1);
    expect(observations[0]).toMatchObject({
      line: "air-zero",
      terms: [],
      additive: { cell: "primary" },
    });
    expect(observations[0]!.value_ppm).toBeCloseTo(7, 9);
  });

  it("is a precise zero only in a cell rinsed and drained; water left in it only adds", () => {
    const [both] = sd(record(written(7, clean)));
    const [one] = sd(record(written(7, { rinsed: true })));
    const [none] = sd(record(written(7)));
    expect(both).toBeLessThan(1.2);
    expect(one).toBeGreaterThan(both!);
    expect(none).toBeGreaterThan(one!);
    expect(none).toBeGreaterThan(7);
    // Below zero there is no water to doubt.
    expect(sd(record(written(-7)))[0]).toBeLessThan(1);
  });

  it("is one of a rinsed cell where a rinse of it stands above, and not below", () => {
    const rinse: MaintenanceEvent = { action: "rinse", afterCast: "001" };
    expect(sd(record(rinse, written(7)))).toEqual(sd(record(written(7, { rinsed: true }))));
    expect(sd(record(written(7), rinse))).toEqual(sd(record(written(7))));
    expect(sd(record({ ...rinse, cell: "secondary" }, written(7)))).toEqual(sd(record(written(7))));
  });

  it("of another cell is not this one's, and of no cell is left out", () => {
    expect(record(written(7, { cell: "secondary" })).observations).toEqual([]);
    const { cell: _, ...ofNone } = written(7);
    const { observations, leftOut } = record(ofNone);
    expect(observations).toEqual([]);
    expect(leftOut[0]!.why).toMatch(/which cell/);
  });

  it("where there is none, there is no line, and it says so", () => {
    expect(record()).toMatchObject({ observations: [], leftOut: [], notes: ["no reading in air"] });
  });
});
