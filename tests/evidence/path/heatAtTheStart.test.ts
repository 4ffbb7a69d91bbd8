// A cell that comes from the deck into warmer or colder water holds heat in its outer parts for a minute or two. On the
// down leg it then differs from the other cell, by less and less.
import { expect, test } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { cellsOnPath } from "../../../src/evidence/path/cellsOnPath.js";
import { excursionsOnCast } from "../../../src/evidence/path/excursionsOnCast.js";
import { pairOnset } from "../../../src/evidence/path/pairOnset.js";
import { cFromSp, spFromC } from "../../../src/seawater/index.js";
import { seeded } from "../seeded.js";
import { simulateWater } from "../simulateWater.js";

const lag = { alpha: 0.0245, tau_s: 9.5 };

/** A cast at 1 Hz whose secondary cell is warmer than its water by this much at first, K, and by 1/e less each 40 s. */
function castWith(warmer_K: number, seed: number) {
  const cast = { ...simulateWater({ deepest_dbar: 1000, seed, lag }), sampleRate_Hz: 1 };
  const { pressure_dbar, primary } = cast.columns;
  const { temperature_C, conductivity_mS_cm } = primary;
  const random = seeded(1000 + seed);
  const own = conductivity_mS_cm.map((c, i) => {
    const [t, p] = [temperature_C[i]!, pressure_dbar[i]!];
    const inCell = t + warmer_K * Math.exp(-i / 40);
    return cFromSp(spFromC(c, t, p), inCell, p) + 0.0003 * random.normal();
  });
  const secondary = { temperature_C, conductivity_mS_cm: own };
  return { ...cast, columns: { ...cast.columns, secondary } };
}

test("heat that a cell still holds at the start of the lowering is not taken for a film or an excursion", () => {
  for (let seed = 0; seed < 4; seed++) {
    for (const warmer_K of [-0.01, 0.01]) {
      const cast = castWith(warmer_K, seed);
      const path = cellsOnPath(cast, splitLegs(cast));
      expect(pairOnset("primary", path.primary!, path.secondary!)).toBeUndefined();
      expect(pairOnset("secondary", path.secondary!, path.primary!)).toBeUndefined();
      for (const { probability } of excursionsOnCast(path)) expect(probability).toBeLessThan(0.5);
    }
  }
});
