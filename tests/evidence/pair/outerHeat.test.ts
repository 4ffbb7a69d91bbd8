// Heat in the outer parts of one cell: on a cast of 200 dbar below warm water it leaves that cell salty on the way down and
// fresh on the way up, which beside the other cell would look like something that it caught at the turn.
import { expect, test } from "vitest";
import type { Cast } from "../../../src/cast/cast.js";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { pairEvidence } from "../../../src/evidence/pair/pair.js";
import { pairDifferences } from "../../../src/evidence/pair/pairDifferences.js";
import { gainTerms } from "../../../src/model/observation.js";
import { simulateWater } from "../simulateWater.js";

/** As large as the lag of the wall in a steady gradient, 0.0245 x 9.5 s [MorisonEtAl1994], and lost within a minute. */
const outerHeat = { alpha: (0.0245 * 9.5) / 50, tau_s: 50 };

/** Two cells in one water; the first holds more heat. */
function pairOfCells(): Cast {
  const water = { deepest_dbar: 200, seed: 3, thermocline_K: 10 };
  const warm = simulateWater({ ...water, outerHeat });
  const other = simulateWater({ ...water, outerHeat: { ...outerHeat, alpha: 0 } });
  const columns = { ...warm.columns, secondary: other.columns.primary };
  return { ...warm, columns, sampleRate_Hz: 1 };
}

test("on a shallow cast the heat of one cell is a known share of its difference from the other, on each leg", () => {
  const cast = pairOfCells();
  const { observations } = pairEvidence("001", pairDifferences(cast, splitLegs(cast), []));
  const seen = observations.map((one) => ({
    leg: gainTerms(one)[0]!.gain.leg,
    value: one.value,
    heat: one.design.find((term) => "shared" in term && term.shared === "pairOuterHeat")!.weight,
  }));
  // Below the thermocline, where the lag of the wall is over.
  expect(Math.max(...seen.map(({ value, leg }) => (leg === "down" ? value : 0)))).toBeGreaterThan(
    50,
  );

  for (const { value, heat, leg } of seen) {
    // The water before the cast is unknown to the rule, and in the upper half of the way down the cell still shows it.
    if (leg === "up") expect(Math.abs(value - heat)).toBeLessThan(3);
    else if (heat > 200) expect(Math.abs(value - heat)).toBeLessThan(10);
  }
});
