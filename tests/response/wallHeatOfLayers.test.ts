import { expect, test } from "vitest";
import { averageByPressure } from "../../src/cast/averageByPressure.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { publishedLag } from "../../src/response/lag/lagPrior.js";
import { wallHeatOfLayers } from "../../src/response/lag/wallHeatOfLayers.js";
import { cFromSp, spFromCFirstDerivatives } from "../../src/seawater/index.js";
import { castOf } from "../cast/castOf.js";

test("steady cooling g makes the water in the cell alpha tau g warmer than outside [MorisonEtAl1994]", () => {
  // alpha 0.0245, tau 9.5 s; lowered at 1 m/s through -0.02 K per dbar: 0.00466 K, fresh or salty by -(dSP/dt) of it.
  const pressure = Array.from({ length: 400 }, (_, i) => i + 6);
  const temperature = pressure.map((p) => 15 - 0.02 * p);
  const conductivity = pressure.map((p, i) => cFromSp(35, temperature[i]!, p));
  const cast = castOf(pressure, temperature, conductivity);
  const legs = splitLegs(cast);
  const layers = averageByPressure(cast, legs.down, "primary", 2);
  const effect = wallHeatOfLayers(layers, legs.clock, publishedLag);
  const k = 150;
  const c = layers.conductivity_mS_cm[k]!;
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(
    c,
    layers.temperature_C[k]!,
    layers.pressure_dbar[k]!,
  );
  const expected = (1e6 * dSpDt * 0.0245 * 9.5 * -0.02) / (c * dSpDc);
  expect(effect[k]!).toBeCloseTo(expected, 1);
  expect(effect[k]!).toBeGreaterThan(0);
});
