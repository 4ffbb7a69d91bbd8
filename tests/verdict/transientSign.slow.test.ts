// A film and a transient of one cell on one cast, on an invented cruise by other physics than the model's (docs/worlds.md). No
// film reads salty. Common practice, no source.
import { expect, it } from "vitest";
import { simulateWorld } from "../../src/simulate/worlds/worlds.js";
import { assessCast } from "../../src/verdict/assessCruise.js";

it("a transient leaves no gain above that of the clean cell", () => {
  const { cruise, truth } = simulateWorld("transient", 1);
  const at = cruise.casts.findIndex(({ id }) => id === "011");
  const { gainError, causes } = assessCast(cruise, "011").cells.primary!;
  const { ppm, standardUncertainty } = gainError.up;
  const true_ppm = truth[at]!.cells.primary!.gain_ppm.up;
  expect(causes[0]!.cause).toBe("transient");
  // It was told as +177 with a standard uncertainty of 23 where the truth is +42: a film of +141 beside a transient of -516.
  expect(Math.abs(ppm - true_ppm)).toBeLessThan(3 * standardUncertainty);
  expect(standardUncertainty).toBeLessThan(30);
});
