// A bottle that closes on water from below, as the wake of a frame on its way up carries it [Codispoti1998].
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import { usualBottleNoise } from "../../../src/evidence/bottles/bottleNoise.js";
import { bottlesEvidence } from "../../../src/evidence/bottles/bottles.js";
import type { Observation } from "../../../src/model/observation.js";
import { bottlesAt, type Closure, calm, column } from "./closures.js";

/** A column that is fresh above, as under ice. */
const freshAbove = (pressure_dbar: number): Closure => ({
  pressure_dbar,
  temperature_C: 2,
  salinity: 34.7 - 1.3 * Math.exp(-pressure_dbar / 400),
});

function observationsOf(
  bottles: readonly Bottle[],
  noise = usualBottleNoise,
): readonly Observation[] {
  return bottlesEvidence("001", bottles, ["primary"], undefined, noise).evidence.observations;
}

const weightOf = ({ design }: Observation, name: string) =>
  design.reduce((sum, term) => ("shared" in term && term.shared === name ? term.weight : sum), 0);

describe("water from one dbar below the bottle", () => {
  for (const [name, water, sign] of [
    ["saltier above", column, 1],
    ["fresher above", freshAbove, -1],
  ] as const) {
    it(`makes a sound cell seem to read ${sign > 0 ? "high" : "low"} where the sea is ${name}, by what the design row says`, () => {
      const closures = Array.from({ length: 40 }, (_, i) => {
        const own = water(200 + 10 * i);
        return { ...own, laboratory: water(own.pressure_dbar + 1).salinity - own.salinity };
      });
      // The outermost bottles have neighbours on one side only.
      const inner = observationsOf(bottlesAt(closures, { primary: 0 })).slice(1, -1);
      expect(inner.length).toBeGreaterThan(30);
      for (const observation of inner) {
        expect(sign * observation.value).toBeGreaterThan(0);
        expect(observation.value / weightOf(observation, "wake")).toBeGreaterThan(0.9);
        expect(observation.value / weightOf(observation, "wake")).toBeLessThan(1.1);
      }
    });
  }
});

describe("the variance of a bottle", () => {
  it("the variance of a bottle is at least that of the laboratory, even if all bottles are identical", () => {
    const closures = calm(12);
    const usual = observationsOf(bottlesAt(closures, { primary: 0 }));
    const alike = observationsOf(bottlesAt(closures, { primary: 0 }), {
      laboratory: 1,
      gradient: 0.3,
    });
    expect(alike.map(({ variance }) => variance)).toEqual(usual.map(({ variance }) => variance));
  });

  it("if samples scatter by hundredths, their mean is not more certain than their shared error", () => {
    const fresh = [0.01, 0.09, 0.03, 0.06, 0.02, 0.08, 0.05, 0.1, 0.04, 0.07, 0.015, 0.085];
    const spoilt = calm(12).map((closure, i) => ({ ...closure, laboratory: -fresh[i]! }));
    const bottles = bottlesAt(spoilt, { primary: 0 });
    const { evidence, shared_ppm } = bottlesEvidence(
      "001",
      bottles,
      ["primary"],
      undefined,
      usualBottleNoise,
    );
    const precision = evidence.observations.reduce((sum, { variance }) => sum + 1 / variance, 0);
    // Fresh by 0.05 in the mean: 1300 ppm, and the truth is 0.
    expect(shared_ppm).toBeGreaterThan(500);
    expect(1 / Math.sqrt(precision)).toBeGreaterThanOrEqual(shared_ppm);
  });
});
