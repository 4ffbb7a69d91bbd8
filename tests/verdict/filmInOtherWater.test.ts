// A film comes into both cells while the ship crosses into deep water that is fresher by some thousandths. The two add up in the
// deep water; bottles of one laboratory run show the film alone.
import { expect, test } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { CellColumns } from "../../src/cast/cast.js";
import type { CruiseCast } from "../../src/cast/cruise.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const fromCast = 4;
/** d ln S / d ln C of sea water near 2 degC, from PSS-78 (derived). */
const salinityPerConductivity = 1.07;

test.each([1, 2, 3])(
  "other deep water does not make the film of both cells larger (seed %i)",
  (seed) => {
    for (const told of gainsInOtherWater(seed, { film_ppm: -150, water_ppm: -140 })) {
      expect(Math.abs(told + 150)).toBeLessThan(60);
    }
  },
);

test.each([1, 2, 3])(
  "deep water that is fresher by 0.03 is no film, if bottles show none (seed %i)",
  (seed) => {
    for (const told of gainsInOtherWater(seed, { film_ppm: 0, water_ppm: -850 })) {
      expect(Math.abs(told)).toBeLessThan(60);
    }
  },
);

/** The gain errors of both cells that are told from the change on, ppm. */
function gainsInOtherWater(
  seed: number,
  { film_ppm, water_ppm }: { readonly film_ppm: number; readonly water_ppm: number },
): readonly number[] {
  const cells = ["primary", "secondary"] as const;
  const { cruise } = simulateCruise({
    seed,
    casts: 6,
    deepest_dbar: 3000,
    bottles: 12,
    cells,
    laboratory: { castsPerRun: 5 },
    events:
      film_ppm === 0
        ? []
        : [{ kind: "film-step", cells, cast: fromCast, at: "before-cast", ppm: film_ppm }],
  });
  const isOther = (cast: string) => Number(cast) >= fromCast;
  const casts = cruise.casts.map((cast) =>
    isOther(cast.id) ? inOtherWater(cast, water_ppm) : cast,
  );
  const bottles = cruise.bottles.map((bottle) =>
    isOther(bottle.cast) ? fresherBottle(bottle, water_ppm) : bottle,
  );
  return assessCruise({ ...cruise, casts, bottles })
    .casts.slice(fromCast - 1)
    .flatMap((verdict) => Object.values(verdict.cells).map(({ gainError }) => gainError.up.ppm));
}

/** The factor of conductivity: that of the other water below 2000 dbar, 1 above 1000 dbar. */
function fresher(pressure_dbar: number, ppm: number): number {
  return 1 + 1e-6 * ppm * Math.min(1, Math.max(0, pressure_dbar / 1000 - 1));
}

function fresherBottle({ ctd, ...bottle }: Bottle, ppm: number): Bottle {
  const factor = fresher(bottle.pressure_dbar, ppm);
  const readings = Object.entries(ctd!).map(([cell, { temperature_C, conductivity_mS_cm }]) => [
    cell,
    { temperature_C, conductivity_mS_cm: conductivity_mS_cm * factor },
  ]);
  const salinity = bottle.salinity * factor ** salinityPerConductivity;
  return { ...bottle, salinity, ctd: Object.fromEntries(readings) };
}

function inOtherWater({ data, ...cast }: CruiseCast, ppm: number): CruiseCast {
  const { pressure_dbar: pressure, primary, secondary } = data!.columns;
  const changed = ({ temperature_C, conductivity_mS_cm }: CellColumns): CellColumns => ({
    temperature_C,
    conductivity_mS_cm: conductivity_mS_cm.map((c, i) => c * fresher(pressure[i]!, ppm)),
  });
  return {
    ...cast,
    data: {
      ...data!,
      columns: { ...data!.columns, primary: changed(primary), secondary: changed(secondary!) },
    },
  };
}
