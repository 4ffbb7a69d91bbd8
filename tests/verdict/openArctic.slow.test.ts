// Open data, read from ../shared, which is not part of the package: where it is absent these are skipped.
import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { deep_dbar, isGood, residualsOf } from "../../scripts/proof/deepResiduals.js";
import type { Bottle } from "../../src/cast/bottle.js";
import { readCruise } from "../../src/node/index.js";
import { median } from "../../src/statistics/robustCentre.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { checkDocument } from "./checkDocument.js";

const arctic = "../shared/data/arctic-2015/33HQ20150809_hy1.csv";
describe.skipIf(!existsSync(arctic))(
  "the Arctic cruise of 2015, adjusted to its bottles by its originators",
  async () => {
    const cruise = existsSync(arctic) ? await readCruise(arctic) : undefined;
    // Its flags are taken away, so that what is left out is left out by the data alone.
    const unflagged = cruise?.bottles.map(({ flag: _, bottleFlag: __, ...bottle }) => bottle) ?? [];
    const document =
      cruise === undefined ? undefined : assessCruise({ ...cruise, bottles: unflagged });

    it("every cast of the Arctic cruise has a complete verdict", () => checkDocument(document!));

    it("the Arctic cruise is mostly sound, with gains within 20 ppm at the median", () => {
      const cells = document!.casts.flatMap((verdict) => Object.values(verdict.cells));
      const sound = cells.filter(({ causes }) => causes[0]!.cause === "sound");
      expect(cells.length).toBeGreaterThan(50);
      expect(sound.length / cells.length).toBeGreaterThan(0.5);
      expect(median(cells.map(({ gainError }) => Math.abs(gainError.up.ppm)))).toBeLessThan(20);
    });

    it("shallow casts with bottles in gradients do not make the Arctic cell shifted: deep bottles agree within 30 ppm", () => {
      const off = assessCruise(cruise!).casts.flatMap(({ cast, cells }) => {
        const deep = cruise!.bottles.filter(
          (b) => b.cast === cast && isGood(b) && b.pressure_dbar >= deep_dbar,
        );
        const residuals = residualsOf(deep, "primary").map(({ value }) => value);
        return residuals.length < 3 ? [] : [cells.primary!.gainError.up.ppm - median(residuals)];
      });
      expect(off.length).toBeGreaterThan(40);
      expect(Math.sqrt(off.reduce((sum, one) => sum + one ** 2, 0) / off.length)).toBeLessThan(30);
    });

    it("Arctic bottles flagged bad by the originators are excluded several times as often as good ones", () => {
      const leftOut = new Set(
        document!.casts.flatMap(({ cast, evidence }) =>
          evidence
            .filter(({ line }) => line === "bottles")
            .flatMap((summary) => summary.leftOut.map(({ what }) => `${cast} ${what}`)),
        ),
      );
      const isLeftOut = ({ cast, bottle, pressure_dbar }: Bottle) =>
        leftOut.has(`${cast} bottle ${bottle} at ${pressure_dbar.toFixed(0)} dbar`);
      const compared = cruise!.bottles.filter(
        ({ salinity, ctd }) => Number.isFinite(salinity) && ctd?.primary !== undefined,
      );
      const flaggedBad = ({ flag = 2, bottleFlag = 2 }: Bottle) =>
        [3, 4].includes(flag) || [3, 4].includes(bottleFlag);
      const share = (some: readonly Bottle[]) => some.filter(isLeftOut).length / some.length;
      const bad = compared.filter(flaggedBad);
      expect(bad.length).toBeGreaterThan(20);
      expect(share(bad)).toBeGreaterThan(
        3 * share(compared.filter((bottle) => !flaggedBad(bottle))),
      );
    });
  },
);
