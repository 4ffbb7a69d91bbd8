// A film that grows in one cell while the cast lasts: the cells differ by more and more. That is no excursion of the other
// cell, which would recover instead.
import { expect, test } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { cellsOnPath } from "../../../src/evidence/path/cellsOnPath.js";
import { excursionsOnCast } from "../../../src/evidence/path/excursionsOnCast.js";
import { seeded } from "../seeded.js";
import { simulateWater } from "../simulateWater.js";

/** Growth within the cast, ppm (judgement: extreme, so that the smallest part of it would show). */
const grown_ppm = 300;

test("hardly any of a film that grows steadily within the cast is taken for an excursion", () => {
  for (let seed = 0; seed < 4; seed++) {
    const lag = { alpha: 0.0245, tau_s: 9.5 };
    const cast = { ...simulateWater({ deepest_dbar: 1200, seed, lag }), sampleRate_Hz: 1 };
    const { temperature_C, conductivity_mS_cm } = cast.columns.primary;
    const random = seeded(500 + seed);
    const fouled = conductivity_mS_cm.map((c, i, { length }) => {
      const film = 400 + (grown_ppm * i) / length;
      return c * (1 - film * 1e-6) + 0.0003 * random.normal();
    });
    const secondary = { temperature_C, conductivity_mS_cm: fouled };
    const pair = { ...cast, columns: { ...cast.columns, secondary } };
    for (const { ppm, probability } of excursionsOnCast(cellsOnPath(pair, splitLegs(pair)))) {
      expect(Math.abs(ppm.value)).toBeLessThan(grown_ppm / 20);
      expect(probability).toBeLessThan(0.5);
    }
  }
});
