// What an open cruise of two cells beside bottles shows. The data are read from ../shared, which is not part of the package:
// where it is absent these are skipped, and the main job is held to simulated truth in the files beside this one.
import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { readCruise } from "../../src/node/index.js";
import { median } from "../../src/statistics/robustCentre.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { closureSalinity } from "../evidence/bottles/closures.js";
import { checkDocument } from "./checkDocument.js";

const data = "../shared/data";

// Two cells with their calibration from before the cruise, beside bottles, not adjusted: see SOURCE.md there.
/** @param most casts that are assessed, from the first; all if absent */
export function describeOpenCruise(id: string, most?: number): void {
  const path = `${data}/subpolar-atlantic-${id}/bottles.csv`;
  describe.skipIf(!existsSync(path))(
    `the subpolar Atlantic cruise ${id}, two cells beside bottles`,
    async () => {
      const whole = existsSync(path) ? await readCruise(path) : undefined;
      const cruise = whole && firstCasts(whole, most);
      const document = cruise === undefined ? undefined : assessCruise(cruise);
      const cells = ["primary", "secondary"] as const;
      const residuals = (cell: CellName) => medianResidual(cruise!.bottles, cell);

      it("has for every cast a verdict that is whole", () => {
        checkDocument(document!);
        expect(document!.casts.length).toBeGreaterThan(4);
      });

      it("has gains that are the plain medians of bottle minus cell, in salinity, within 0.001", () => {
        for (const cell of cells) {
          const { ppm } = document!.casts.at(-1)!.cells[cell]!.gainError.up;
          // 0.0039 in salinity are 100 ppm at SP 35 (PSS-78).
          expect(Math.abs(ppm * 3.9e-5 - residuals(cell))).toBeLessThan(0.001);
          expect(ppm).toBeLessThan(0);
          expect(ppm).toBeGreaterThan(-200);
        }
      });

      it("has gains that stand still: none of the casts in its later half is more than 0.001 from the last", () => {
        const casts = document!.casts.slice(Math.floor(document!.casts.length / 2));
        for (const cell of cells) {
          const gains = casts.map((verdict) => verdict.cells[cell]!.gainError.up.ppm);
          for (const ppm of gains) expect(Math.abs(ppm - gains.at(-1)!)).toBeLessThan(26);
        }
      });

      it("is an old calibration where a gain is beyond the 0.002 of the target, never a film, and nothing to deep-clean", () => {
        const last = document!.casts.at(-1)!;
        expect(last.advice.deepClean).toBe(false);
        for (const cell of cells) {
          const { causes, salinityError, advice } = last.cells[cell]!;
          expect(causes[0]!.cause).not.toBe("fouling");
          expect(advice.deepClean).toBe(false);
          if (Math.abs(salinityError.at35) > 0.0022) {
            expect(causes[0]!.cause).toBe("calibration-shift");
          }
        }
      });
    },
  );
}

function firstCasts(cruise: Cruise, most?: number): Cruise {
  const casts = cruise.casts.slice(0, most);
  const ids = new Set(casts.map(({ id }) => id));
  return { ...cruise, casts, bottles: cruise.bottles.filter(({ cast }) => ids.has(cast)) };
}

/** Median of CTD minus laboratory salinity below the upper ocean, PSS-78, by the salinities as written. */
function medianResidual(bottles: readonly Bottle[], cell: CellName): number {
  return median(
    bottles.flatMap((bottle) => {
      const reading = bottle.ctd?.[cell];
      if (reading === undefined || !(bottle.salinity > 0) || bottle.pressure_dbar < 200) return [];
      const salinity = closureSalinity(bottle, cell);
      return [salinity - bottle.salinity];
    }),
  );
}
