// Made-up cruises whose files were written with few decimals, as tables meant for plotting are.
import { describe, expect, it } from "vitest";
import type { CellColumns } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { simulateWorld } from "../../src/simulate/worlds/worlds.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const { cruise: whole } = simulateWorld("sound", 1, { rate_Hz: 1 });
const three: Cruise = {
  ...whole,
  casts: whole.casts.slice(0, 3),
  bottles: whole.bottles.filter(({ cast }) =>
    whole.casts.slice(0, 3).some(({ id }) => id === cast),
  ),
};

function written(cruise: Cruise, step: number): Cruise {
  const round = (column: Float64Array) => column.map((value) => Math.round(value / step) * step);
  const coarse = ({ temperature_C, conductivity_mS_cm }: CellColumns): CellColumns => ({
    temperature_C: round(temperature_C),
    conductivity_mS_cm: round(conductivity_mS_cm),
  });
  return {
    ...cruise,
    casts: cruise.casts.map((cast) => {
      const { primary, secondary, ...columns } = cast.data!.columns;
      const cells = {
        primary: coarse(primary),
        ...(secondary === undefined ? {} : { secondary: coarse(secondary) }),
      };
      return { ...cast, data: { ...cast.data!, columns: { ...columns, ...cells } } };
    }),
  };
}

/** Every bottle with the reading beside it that the fine scans gave at its pressure. */
function withReadings(cruise: Cruise): Cruise {
  return {
    ...cruise,
    bottles: cruise.bottles.map((bottle) => {
      const { data } = cruise.casts.find(({ id }) => id === bottle.cast)!;
      const { pressure_dbar, primary } = data!.columns;
      let nearest = 0;
      for (let i = 0; i < pressure_dbar.length; i++) {
        const off = (k: number) => Math.abs(pressure_dbar[k]! - bottle.pressure_dbar);
        if (off(i) <= off(nearest)) nearest = i;
      }
      const at = (column: Float64Array) => column[nearest]!;
      const reading = {
        temperature_C: at(primary.temperature_C),
        conductivity_mS_cm: at(primary.conductivity_mS_cm),
      };
      return { ...bottle, ctd: { primary: reading } };
    }),
  };
}

const cellsOf = (cruise: Cruise) =>
  assessCruise(cruise).casts.flatMap(({ cells }) => Object.values(cells));

describe("a sound cruise whose scans are written with few decimals", () => {
  it.each([0.001, 0.002])(
    "a sound cruise in steps of %f has almost no probability of fouling",
    (step) => {
      for (const { causes, advice, data } of cellsOf(written(three, step))) {
        expect(["sound", "calibration-shift"]).toContain(causes[0]!.cause);
        expect(advice.intensity).toBe("rinse");
        expect(data).not.toBe("bad");
      }
    },
  );

  it.each([0.005, 0.01, 0.05])(
    "a cruise in steps of %f is undetermined, and the verdict names the required decimals",
    (step) => {
      const document = assessCruise(written(three, step));
      for (const { cells, health, wouldDecide } of document.casts) {
        expect(health!.some(({ kind }) => kind === "coarse-steps")).toBe(true);
        expect(wouldDecide[0]).toContain("four decimals");
        for (const { causes, advice, data } of Object.values(cells)) {
          expect(causes[0]!.cause).toBe("undetermined");
          expect(causes[0]!.because).toContain("too few decimals");
          expect(advice.intensity).toBe("rinse");
          expect(data).toBe("questionable");
        }
      }
    },
  );

  it("a coarse cruise is judged by bottles with finer readings", () => {
    const cruise = withReadings(three);
    for (const { cells } of assessCruise(written(cruise, 0.01)).casts) {
      expect(["sound", "calibration-shift"]).toContain(cells.primary!.causes[0]!.cause);
    }
  });
});
