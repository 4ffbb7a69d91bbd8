// Two samples of one cast with their labels exchanged, as happens at the rosette (common practice, no source), on invented casts.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import { usualBottleNoise } from "../../../src/evidence/bottles/bottleNoise.js";
import { bottlesEvidence } from "../../../src/evidence/bottles/bottles.js";
import { seeded } from "../seeded.js";
import { bottlesAt, column } from "./closures.js";

const gain_ppm = -30;
const pressures = [1500, 850, 400, 4];
const evidenceOf = (bottles: readonly Bottle[]) =>
  bottlesEvidence("001", bottles, ["primary"], undefined, usualBottleNoise);

/** Bottles from the deepest up, of a laboratory with this error, PSS-78. */
function cast(seed: number, error: number, depths = pressures): readonly Bottle[] {
  const { normal } = seeded(seed);
  const closures = depths.map((p) => ({ ...column(p), laboratory: error * normal() }));
  return bottlesAt(closures, { primary: gain_ppm });
}

function exchanged(bottles: readonly Bottle[], i: number, j: number): readonly Bottle[] {
  const salinity = (k: number) => bottles[k === i ? j : k === j ? i : k]!.salinity;
  return bottles.map((bottle, k) => ({ ...bottle, salinity: salinity(k) }));
}

describe("two samples of a cast with exchanged labels", () => {
  it.each([
    [0, 3],
    [1, 2],
    [2, 3],
  ])("of four bottles, numbers %i and %i are named and not used", (i, j) => {
    for (const seed of [1, 2, 3]) {
      const { evidence, centre } = evidenceOf(exchanged(cast(seed, 0.001), i, j));
      expect(evidence.leftOut.map(({ what }) => what.slice(0, 8))).toEqual([
        `bottle ${i + 1}`,
        `bottle ${j + 1}`,
      ]);
      for (const { why } of evidence.leftOut) expect(why).toMatch(/labels were exchanged/);
      expect(evidence.notes.join()).toMatch(/Exchange them in the bottle file/);
      expect(Math.abs(centre!.ppm - gain_ppm)).toBeLessThan(4 * centre!.standardUncertainty_ppm);
    }
  });

  it("are not reported with right labels, or in a spoilt batch", () => {
    const depths = Array.from({ length: 12 }, (_, k) => 4 + 200 * k);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1e6 }),
        fc.constantFrom(0.001, 0.02, 0.1),
        (seed, error) => {
          const { evidence } = evidenceOf(cast(seed, error, depths));
          expect(evidence.leftOut.map(({ why }) => why).join()).not.toMatch(
            /labels were exchanged/,
          );
        },
      ),
      { numRuns: 300, seed: 1 },
    );
  });
});
