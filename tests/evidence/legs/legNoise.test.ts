// The noise of the legs is learnt from the differences themselves: series of known AR processes, with seeds.
import { expect, test } from "vitest";
import { legNoise } from "../../../src/evidence/legs/legNoise.js";
import { seeded } from "../seeded.js";

const n = 800;
const pressure = Float64Array.from({ length: n }, (_, k) => 2 * k);
const nothing = { lagged: new Float64Array(n), balanced: new Float64Array(n) };

/** Mean partial correlation with the value before the last, as learnt from series with these true coefficients. */
function meanTurned(first: number, second: number): number {
  let sum = 0;
  for (let seed = 0; seed < 10; seed++) {
    const random = seeded(seed);
    const x = new Float64Array(n);
    for (let k = 0; k < n; k++) {
      x[k] = first * (x[k - 1] ?? 0) + second * (x[k - 2] ?? 0) + 10 * random.normal();
    }
    const { turned } = legNoise(x, nothing, pressure, 20);
    sum += turned.reduce((all, t) => all + t, 0) / n;
  }
  return sum / 10;
}

test("differences in which each value depends on the last alone have hardly a second correlation", () => {
  expect(meanTurned(0.7, 0)).toBeGreaterThan(-0.1);
});

test("differences whose jumps go on in the same direction have a negative second correlation", () => {
  // The partial correlation of an AR(2) process with the value before the last is its second coefficient.
  expect(meanTurned(1, -0.25)).toBeLessThan(-0.15);
  expect(meanTurned(1, -0.25)).toBeGreaterThan(-0.3);
});
