// Something that is drawn into a cell and comes out again, all at once: weed, a jellyfish, a bubble (common practice, no source).
// Invented casts of sound cells, in which one cell then reads too fresh on a part of its path.
import { describe, expect, it } from "vitest";
import type { Cast } from "../../../src/cast/cast.js";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { cellsOnPath } from "../../../src/evidence/path/cellsOnPath.js";
import { excursionsOnCast } from "../../../src/evidence/path/excursionsOnCast.js";
import { pathAt } from "../../../src/model/placesOnCast.js";
import { simulateCruise } from "../../../src/simulate/index.js";
import { assessCruise } from "../../../src/verdict/assessCruise.js";

const deepest_dbar = 1500;
const { cruise } = simulateCruise({
  seed: 31,
  casts: 5,
  cells: ["primary", "secondary"],
  deepest_dbar,
  bottles: 12,
  sampling: { kind: "time-series", rate_Hz: 2 },
});

/** The primary cell reads fresh by this much between two places of its path, dbar. */
function disturbed(cast: Cast, ppm: number, from_dbar: number, to_dbar: number): Cast {
  const { pressure_dbar, primary } = cast.columns;
  const turn = pressure_dbar.indexOf(Math.max(...pressure_dbar));
  const conductivity_mS_cm = primary.conductivity_mS_cm.map((c, i) => {
    const at = pathAt(i > turn ? "up" : "down", pressure_dbar[i]!, pressure_dbar[turn]!);
    return at >= from_dbar && at < to_dbar ? c * (1 + 1e-6 * ppm) : c;
  });
  return { ...cast, columns: { ...cast.columns, primary: { ...primary, conductivity_mS_cm } } };
}

function excursions(cast: Cast) {
  const [primary, secondary] = excursionsOnCast(cellsOnPath(cast, splitLegs(cast)));
  return { primary: primary!, secondary: secondary! };
}

/** Places on the path, of 3000 dbar: within the down leg, across the turn, within the up leg. */
const stays = [
  { from: 400, to: 800 },
  { from: 900, to: 2700 },
  { from: 1900, to: 2300 },
];

describe("a cell that reads 200 ppm fresh on a part of the path", () => {
  it.each(stays)(
    "from $from to $to dbar: came and left at once, at these places",
    ({ from, to }) => {
      for (const { data } of cruise.casts.slice(0, 3)) {
        const { primary, secondary } = excursions(disturbed(data!, -200, from, to));
        expect(primary.probability).toBeGreaterThan(0.95);
        expect(secondary.probability).toBeLessThan(0.01);
        expect(primary.atOnce).toBe(true);
        const onset = pathAt(primary.leg, primary.onset_dbar.value, deepest_dbar);
        expect(Math.abs(onset - from)).toBeLessThan(20);
        expect(Math.abs(primary.recovery_dbar.value - (to - from))).toBeLessThan(30);
        expect(Math.abs(primary.ppm.value + 200)).toBeLessThan(25);
      }
    },
  );

  it("a film that was there before the cast and leaves on the way is no such thing", () => {
    for (const { data } of cruise.casts.slice(0, 3)) {
      for (const to of [500, 1200, 2200]) {
        const { primary, secondary } = excursions(disturbed(data!, -200, 0, to));
        expect(primary.probability).toBeLessThan(0.5);
        expect(secondary.probability).toBeLessThan(0.5);
      }
    }
  });
});

describe("weed in the cell from 600 dbar on the way down to 300 dbar on the way up, 400 ppm", () => {
  const [fourth] = cruise.casts.slice(3);
  const casts = cruise.casts.map((cast) =>
    cast === fourth ? { ...cast, data: disturbed(cast.data!, -400, 600, 2700) } : cast,
  );
  const before = assessCruise(cruise).casts;
  // The CTD is read from the scans, not from what the simulator wrote beside the bottles.
  const measured = cruise.bottles.map(({ ctd: _, ...bottle }) => bottle);
  const unmeasured = measured.map((bottle) =>
    bottle.cast === fourth!.id ? { ...bottle, salinity: Number.NaN } : bottle,
  );
  it.each([
    { when: "before its bottles are measured", bottles: unmeasured },
    { when: "with its bottles", bottles: measured },
  ])("is a transient, and nothing is cleaned for it: $when", ({ bottles }) => {
    const told = assessCruise({ ...cruise, casts, bottles }).casts;
    for (const k of [3, 4]) {
      const { causes, advice, gainError } = told[k]!.cells.primary!;
      const usual = before[k]!.cells.primary!.gainError.up;
      if (k === 3) expect(causes[0]!.cause).toBe("transient");
      expect(advice.intensity).toBe("rinse");
      expect(Math.abs(gainError.up.ppm - usual.ppm)).toBeLessThan(30);
    }
  });
});
