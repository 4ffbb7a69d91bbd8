// Two sound cells whose intakes are not at one place: one higher than the other, or behind a longer line. In water with
// strong gradients they then read different water (distances and times: judgement).
import { describe, expect, it } from "vitest";
import type { Cast, CellColumns, LegName } from "../../../src/cast/cast.js";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { cellsOnPath } from "../../../src/evidence/path/cellsOnPath.js";
import { excursionsOnCast } from "../../../src/evidence/path/excursionsOnCast.js";
import { cFromSp, spFromC } from "../../../src/seawater/index.js";
import { simulateCruise } from "../../../src/simulate/index.js";
import { assessCruise } from "../../../src/verdict/assessCruise.js";

const rate_Hz = 4;
const simulated = simulateCruise({
  seed: 12,
  casts: 6,
  cells: ["primary", "secondary"],
  deepest_dbar: 150,
  bottles: 8,
  sampling: { kind: "time-series", rate_Hz },
});

/** Additional salinity by pressure, PSS-78: near a coast it grows all the way down; or by a step (judgement). */
const coast = (p: number) => 0.015 * p;
const halocline = (p: number) => 1.5 * Math.tanh((p - 50) / 8);

function saltier({ columns, ...cast }: Cast, by: (p: number) => number): Cast {
  const cell = ({ temperature_C, conductivity_mS_cm }: CellColumns) => ({
    temperature_C,
    conductivity_mS_cm: conductivity_mS_cm.map((c, i) => {
      const [t, p] = [temperature_C[i]!, columns.pressure_dbar[i]!];
      return cFromSp(spFromC(c, t, p) + by(p), t, p);
    }),
  });
  const { primary, secondary } = columns;
  return { ...cast, columns: { ...columns, primary: cell(primary), secondary: cell(secondary!) } };
}

/** Both sensors of the primary cell read what was around them some seconds before; after, if negative. */
function late({ columns, ...cast }: Cast, seconds: (leg: LegName) => number): Cast {
  const { pressure_dbar, primary } = columns;
  const turn = pressure_dbar.indexOf(Math.max(...pressure_dbar));
  const shifted = (column: Float64Array) =>
    column.map((value, i) => column[i - rate_Hz * seconds(i > turn ? "up" : "down")] ?? value);
  const cell = {
    temperature_C: shifted(primary.temperature_C),
    conductivity_mS_cm: shifted(primary.conductivity_mS_cm),
  };
  return { ...cast, columns: { ...columns, primary: cell } };
}

describe("intakes of two sound cells", () => {
  it.each([0.25, 0.5])("water that comes %f s later on the way up is no transient", (later_s) => {
    for (const { data } of simulated.cruise.casts) {
      const cast = late(saltier(data!, halocline), (leg) => (leg === "up" ? later_s : 0));
      for (const { probability } of excursionsOnCast(cellsOnPath(cast, splitLegs(cast)))) {
        // With one delay for both legs it was told as one of -332 or -700 ppm, certainly.
        expect(probability).toBeLessThan(0.01);
      }
    }
  });

  it("an intake that is 0.25 m higher does not shift the gains", () => {
    const { cruise } = simulated;
    // The package moves at about 1 m/s.
    const casts = cruise.casts.map((cast) => ({
      ...cast,
      data: late(saltier(cast.data!, coast), (leg) => (leg === "down" ? 0.25 : -0.25)),
    }));
    const bottles = cruise.bottles.map(({ ctd: _, ...bottle }) => ({
      ...bottle,
      salinity: bottle.salinity + coast(bottle.pressure_dbar),
    }));
    for (const { cells } of assessCruise({ ...cruise, casts, bottles }).casts) {
      for (const { gainError } of Object.values(cells)) {
        // As a difference of the gains it was told as -33 and +33 ppm, cast after cast.
        expect(Math.abs(gainError.up.ppm)).toBeLessThan(20);
      }
    }
  });
});
