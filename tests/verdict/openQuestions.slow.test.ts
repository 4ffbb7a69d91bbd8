import { beforeAll, describe, expect, it } from "vitest";
import type { Cruise } from "../../src/cast/cruise.js";
import { type Scenario, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { Verdict } from "../../src/verdict/verdict.js";

const scenario: Scenario = { seed: 5, casts: 3, deepest_dbar: 2000, bottles: 6 };
const withoutBottles = (given: Scenario): Cruise => {
  const { cruise } = simulateCruise(given);
  return { ...cruise, bottles: [] };
};
/** Of causes that ask for the same, by what is done about the cell: corrected by its gain and left as it is. */
const standing = ["sound", "calibration-shift", "pressure-response", "water"];

describe("the deciding sampling, on whole cruises", () => {
  /** The cells differ by 200 ppm and nothing says which is off. */
  let apart: readonly Verdict[];
  /** Twelve bottles a cast, and a film from cast 2 on. */
  let fouled: readonly Verdict[];

  beforeAll(() => {
    const events = [
      { kind: "calibration-shift", cell: "primary", fromCast: 1, ppm: -200 },
    ] as const;
    apart = assessCruise(withoutBottles({ ...scenario, events })).casts;
    const film = [
      { kind: "film-step", cells: ["primary"], cast: 2, at: "before-cast", ppm: -250 },
    ] as const;
    fouled = assessCruise(simulateCruise({ ...scenario, bottles: 12, events: film }).cruise).casts;
  });

  it("no sampling is recommended if one cause or one action is settled and the gain is known", () => {
    for (const { wouldDecide, cells } of [...apart, ...fouled]) {
      for (const [cell, { causes, gainError }] of Object.entries(cells)) {
        const corrected = causes
          .filter(({ cause }) => standing.includes(cause))
          .reduce((sum, { probability }) => sum + probability, 0);
        const known = gainError.up.standardUncertainty < 51 / 2;
        const settled = causes[0]!.probability >= 0.9 || (corrected >= 0.9 && known);
        const said = wouldDecide.filter((sentence) =>
          new RegExp(`Not settled for the (primary and the )?${cell} cell`).test(sentence),
        );
        if (settled) expect(said).toEqual([]);
        else expect(said.length).toBe(1);
      }
    }
    expect(fouled[0]!.wouldDecide).toEqual([]);
  });

  it("two cells that differ are decided by a few bottles in the water of this station", () => {
    const { wouldDecide } = apart.at(-1)!;
    expect(wouldDecide.length).toBeGreaterThan(0);
    for (const sentence of wouldDecide) {
      const [, count, stop, share] =
        /(\d+) bottles? at about (\d+) dbar (?:on the next cast )?would decide in (\d+) of 10/.exec(
          sentence.replace("nearly all", "10 of 10"),
        )!;
      expect(Number(count)).toBeLessThanOrEqual(8);
      expect(Number(stop)).toBeGreaterThan(0);
      expect(Number(stop)).toBeLessThanOrEqual(2000);
      expect(Number(share)).toBeGreaterThanOrEqual(8);
    }
  });

  it("after those bottles a film or a shift is open, and a cleaning would decide it", () => {
    const asked = apart.at(-1)!.wouldDecide[0]!;
    const [, count, stop] =
      /^Not settled for the primary cell: .* (\d+) bottles? at about (\d+) dbar/.exec(asked)!;
    const { cruise } = simulateCruise({
      ...scenario,
      casts: 4,
      events: [{ kind: "calibration-shift", cell: "primary", fromCast: 1, ppm: -200 }],
      bottlePressures_dbar: Array<number>(Number(count)).fill(Math.min(1990, Number(stop))),
    });
    const next = cruise.casts[3]!.id;
    const bottles = cruise.bottles.filter(({ cast }) => cast === next);
    const { cells, wouldDecide } = assessCruise({ ...cruise, bottles }).casts.at(-1)!;
    expect(apart.at(-1)!.cells.primary!.causes[0]!.probability).toBeLessThan(0.9);
    expect(cells.primary!.causes[0]).toMatchObject({ cause: "calibration-shift" });
    expect(cells.primary!.gainError.up.standardUncertainty).toBeLessThan(0.6 * 51);
    const [open = ""] = wouldDecide.filter((one) =>
      one.startsWith("Not settled for the primary cell"),
    );
    expect(open).not.toContain("bottle");
  });

  it("the recommended sampling is the same at every run", () => {
    const events = [
      { kind: "calibration-shift", cell: "primary", fromCast: 1, ppm: -200 },
    ] as const;
    const again = assessCruise(withoutBottles({ ...scenario, events })).casts;
    expect(again.map(({ wouldDecide }) => wouldDecide)).toEqual(
      apart.map(({ wouldDecide }) => wouldDecide),
    );
  });
});

describe("the recommended bottle stops", () => {
  it("bottle stops are recommended where salinity changes least: a halocline at mid-depth is avoided", async () => {
    const { calmDepths } = await import("../../src/verdict/gather/calmDepths.js");
    const { cFromSp } = await import("../../src/seawater/index.js");
    const scans = 2000;
    const pressure = Float64Array.from({ length: scans }, (_, i) =>
      i < scans / 2 ? i : scans - 1 - i,
    );
    // Even but for 0.002 per dbar from 400 to 600 dbar.
    const salinity = (p: number) => 34 + 0.002 * Math.min(200, Math.max(0, p - 400));
    const temperature_C = pressure.map(() => 4);
    const depths = calmDepths(
      {
        id: "1",
        columns: {
          pressure_dbar: pressure,
          primary: {
            temperature_C,
            conductivity_mS_cm: pressure.map((p) => cFromSp(salinity(p), 4, p)),
          },
        },
        conductivityFrom: "measured",
      } as unknown as Parameters<typeof calmDepths>[0],
      [],
    );
    expect(depths.length).toBe(3);
    for (const { pressure_dbar, salinityGradient_per_dbar } of depths) {
      expect(pressure_dbar < 400 || pressure_dbar > 600).toBe(true);
      expect(Math.abs(salinityGradient_per_dbar)).toBeLessThan(1e-6);
    }
    expect(depths[0]!.pressure_dbar).toBeLessThan(334);
    expect(depths[2]!.pressure_dbar).toBeGreaterThan(666);
  });
});
