// Salinity that balances temperature between the legs: only differences of depth beyond a smooth heave count.
import { expect, test } from "vitest";
import { balancedSalinity } from "../../../src/evidence/legs/balancedSalinity.js";

const n = 300;
const column = (of: (k: number) => number) => Float64Array.from({ length: n }, (_, k) => of(k));

/** Layers of 2 dbar in water that cools by 0.02 K/dbar, except from layer 140 to 160, where temperature is uniform. */
function layers(heave_dbar: (k: number) => number) {
  let theta = 15;
  const potentialTemperature_C = column((k) => {
    if (k < 140 || k >= 160) theta -= 0.04;
    return theta;
  });
  return {
    pressureUp_dbar: column((k) => 100 + 2 * k + heave_dbar(k)),
    pressureDown_dbar: column((k) => 100 + 2 * k),
    potentialTemperature_C,
    salinity: column(() => 35),
    ppmPerSalinity: column(() => 25_000),
  };
}

const most = (values: Float64Array, from: number, to: number) =>
  values.subarray(from, to).reduce((all, v) => Math.max(all, Math.abs(v)), 0);

test("a smooth heave moves no salinity between the legs", () => {
  const smooth = balancedSalinity(layers((k) => 4 + 0.02 * k));
  const rough = balancedSalinity(layers((k) => 4 + 0.02 * k + 2 * Math.sin(k)));
  expect(most(smooth, 10, 130)).toBeLessThan(0.1 * most(rough, 10, 130));
});

test("where temperature is uniform its place says nothing, and does not count for the heave beside it", () => {
  const plain = balancedSalinity(layers(() => 0));
  const lost = balancedSalinity(layers((k) => (k >= 145 && k < 155 ? 30 : 0)));
  expect(most(plain, 0, n)).toBeLessThan(1e-6);
  const rough = balancedSalinity(layers((k) => 3 * Math.sin(k)));
  expect(most(lost, 165, 200)).toBeLessThan(0.05 * most(rough, 165, 200));
  expect(most(lost, 100, 135)).toBeLessThan(0.05 * most(rough, 100, 135));
});
