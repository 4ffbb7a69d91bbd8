// Heat in the outer parts of a cell: it leaves more slowly than that of the wall, and makes the legs differ by a smooth
// course over the whole thermocline, as a film that grows does.
import { expect, test } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { legsEvidence } from "../../../src/evidence/legs/legs.js";
import { simulateWater } from "../simulateWater.js";

const lag = { alpha: 0.0245, tau_s: 9.5 };

/** Its size that fits the layers of some casts best, as a share of the lag of the wall. */
function shareSeen(share: number): number {
  const tau_s = 50;
  const outerHeat = { alpha: (share * lag.alpha * lag.tau_s) / tau_s, tau_s };
  let [product, square] = [0, 0];
  for (let seed = 0; seed < 6; seed++) {
    const water = { deepest_dbar: 1500, heave_dbar: 4, spice: 0.3, seed, lag, outerHeat };
    const cast = { ...simulateWater(water), sampleRate_Hz: 1 };
    for (const { design, value, variance } of legsEvidence(cast, splitLegs(cast), "primary")
      .observations) {
      const weight = design.find((one) => "shared" in one && one.shared === "outerHeat")!.weight;
      product += (weight * value) / variance;
      square += weight ** 2 / variance;
    }
  }
  return product / square;
}

test("heat that leaves a cell within a minute is seen as such, and none where there is none", () => {
  const none = shareSeen(0);
  expect(Math.abs(none)).toBeLessThan(0.08);
  // Most of it looks like a longer memory of the wall, and is removed with that.
  expect(shareSeen(1)).toBeGreaterThan(none + 0.1);
});
