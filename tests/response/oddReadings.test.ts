import { describe, expect, test } from "vitest";
import type { Cast } from "../../src/cast/cast.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { fitCellLag } from "../../src/response/lag/fitCellLag.js";
import { removeSensorResponse } from "../../src/response/removeSensorResponse.js";
import { sensorResponse } from "../../src/response/sensorResponse.js";
import { castOf } from "../cast/castOf.js";
import { simulateWater } from "../evidence/simulateWater.js";

const sound: Cast = {
  ...simulateWater({ deepest_dbar: 400, seed: 2, lag: { alpha: 0.05, tau_s: 9.5 } }),
  sampleRate_Hz: 1,
};

function withValue(value: number, column: "temperature_C" | "conductivity_mS_cm", scan: number) {
  const { primary } = sound.columns;
  const own = primary[column].slice();
  own[scan] = value;
  return { ...sound, columns: { ...sound.columns, primary: { ...primary, [column]: own } } };
}

describe.each([1e20, 9.97e36, -99, -9.99, -1e30])("a fill value of %s in one scan", (value) => {
  test("a fill value changes the thermal lag no more than a missing scan does", () => {
    for (const column of ["temperature_C", "conductivity_mS_cm"] as const) {
      const [filled, missing] = [value, Number.NaN].map((own) => {
        const cast = withValue(own, column, 150);
        return sensorResponse(cast, splitLegs(cast), "primary");
      });
      expect(filled!.thermalLag!.timesUsual).toBeGreaterThan(1);
      expect(filled).toEqual(missing);
    }
  });

  test("a fill value stays in its scan when the response is removed", () => {
    const correction = { primary: { thermalLag: { alpha: 0.05, tau_s: 9.5 }, alignment_s: 0.02 } };
    for (const column of ["temperature_C", "conductivity_mS_cm"] as const) {
      const cast = withValue(value, column, 150);
      const { primary } = removeSensorResponse(cast, splitLegs(cast), correction).columns;
      const clean = removeSensorResponse(sound, splitLegs(sound), correction).columns.primary;
      for (let i = 0; i < clean.conductivity_mS_cm.length; i++) {
        const own = primary.conductivity_mS_cm[i]!;
        if (Math.abs(i - 150) <= 2 || Number.isNaN(own)) continue;
        expect(Math.abs(own - clean.conductivity_mS_cm[i]!)).toBeLessThan(0.01);
      }
    }
  });
});

test("without differences between the legs the lag is its prior", () => {
  const nothing = new Float64Array(0);
  const empty = { pressure_dbar: nothing, difference_ppm: nothing, ambiguity_ppm: nothing };
  const fit = fitCellLag(empty, () => nothing);
  // One to two parts in a hundred more than 1: the prior mean of tau is above its median.
  expect(fit.timesUsual).toBeGreaterThan(0.9);
  expect(fit.timesUsual).toBeLessThan(1.2);
  expect(fit.timesUsualUncertainty).toBeGreaterThan(2.5);
  expect(fit.tauNarrowed).toBeGreaterThan(0.9);
});

test("a cast without any scan has no response, and no error", () => {
  const cast = castOf([], [], []);
  const { alignment, thermalLag } = sensorResponse(cast, splitLegs(cast), "primary");
  expect(alignment).toBeUndefined();
  expect(thermalLag).toBeUndefined();
});
