// A film of both cells that the water washes off, or that stays. Known truth: observations made from gains, without water or sensors.
import { mean } from "d3-array";
import { describe, expect, it } from "vitest";
import { track } from "../../src/track/track.js";
import { deviates, held, inputOf, recovery } from "./observations.js";

const both = ["primary", "secondary"] as const;

/**
 * Bottles alone see an equal change of both cells, and each cast has a laboratory run of its own, with an error of some 18 ppm. So
 * the film of a cast is known to about 20 ppm from its own bottles.
 */
function filmInBoth(loss: number): { readonly error: number; readonly run: number } {
  const squares: number[] = [];
  const runs: number[] = [];
  for (const seed of [1, 2, 3, 4, 5, 6]) {
    const normal = deviates(seed);
    const films = Array.from({ length: 12 }, (_, i) => (i < 3 ? 0 : -300 * (1 - loss) ** (i - 3)));
    const inputs = films.map((film, i) => {
      const gain = { down: film, up: film };
      const gains = { primary: gain, secondary: gain };
      return inputOf(i, { gains, bottles: 12, reference: 18 * normal() }, normal);
    });
    const tracked = track(both, inputs, recovery);
    for (const [i, cast] of tracked.entries()) {
      if (i >= 5) squares.push((held(both, cast, "primary").mean - films[i]!) ** 2);
    }
    runs.push(tracked.at(-1)!.noise.errors.run!);
  }
  return { error: Math.sqrt(mean(squares)!), run: mean(runs)! };
}

describe("a film of -300 ppm in both cells, with bottles on every cast", () => {
  it("that loses 10 or 20 % on every cast is followed, and the laboratory is not blamed for the change", () => {
    for (const loss of [0.1, 0.2]) {
      const { error, run } = filmInBoth(loss);
      expect(error).toBeLessThan(32);
      expect(run).toBeLessThan(25);
    }
  });

  it("that stays is known better than from the bottles of one cast", () => {
    expect(filmInBoth(0).error).toBeLessThan(20);
  });
});
