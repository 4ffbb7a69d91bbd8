import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import type { CellName } from "../../../src/cast/cast.js";
import { usualBottleNoise } from "../../../src/evidence/bottles/bottleNoise.js";
import { bottlesEvidence, judgeBottles } from "../../../src/evidence/bottles/bottles.js";
import { gainTerms } from "../../../src/model/observation.js";
import { seeded } from "../seeded.js";
import { type Closure, calm, reading } from "./closures.js";

const both = ["primary", "secondary"] as const;
const ofCast = (bottles: readonly Bottle[]) =>
  bottlesEvidence("001", bottles, both, undefined, usualBottleNoise);
const closures = calm(12);

/** Bottles beside two cells whose gains are given bottle by bottle. */
function beside(
  gain: (cell: CellName, i: number) => number,
  laboratory: (i: number) => number = () => 0,
): readonly Bottle[] {
  return closures.map((closure: Closure, i) => ({
    cast: "001",
    bottle: String(i + 1),
    pressure_dbar: closure.pressure_dbar,
    salinity: closure.salinity + laboratory(i),
    ctd: {
      primary: reading(closure, gain("primary", i)),
      secondary: reading(closure, gain("secondary", i)),
    },
  }));
}

describe("a bottle compared with two cells", () => {
  it("a bottle that agrees with only one cell is used, and the other cell is named", () => {
    for (const off of both) {
      const gain = (cell: CellName, i: number) =>
        (cell === "primary" ? -30 : 80) + (cell === off && i === 4 ? -900 : 0);
      const { evidence, byCell } = ofCast(beside(gain));
      expect(evidence.leftOut).toEqual([]);
      expect(evidence.observations).toHaveLength(12);
      const other = off === "primary" ? "secondary" : "primary";
      const expected = off === "primary" ? { cell: other, ppm: 80 } : { cell: other, ppm: -30 };
      const fifth = evidence.observations.find(({ bottle }) => bottle === "5")!;
      expect(gainTerms(fifth)[0]!.gain.cell).toBe(expected.cell);
      expect(fifth.value).toBeCloseTo(expected.ppm, 0);
      for (const { cell, leftOut } of byCell) {
        expect(leftOut.map(({ what }) => what)).toEqual(
          cell === off ? [expect.stringMatching(/^bottle 5 at /)] : [],
        );
      }
      const why = byCell.find(({ cell }) => cell === off)!.leftOut[0]!.why;
      expect(why).toMatch(`It agrees with the ${other} cell, so the ${off} cell was off`);
    }
  });

  it("a bottle that disagrees with both cells leaked or tripped at another depth", () => {
    const { evidence, byCell } = ofCast(
      beside(
        () => -30,
        (i) => (i === 4 ? 0.03 : 0),
      ),
    );
    expect(evidence.leftOut.map(({ what }) => what.slice(0, 8))).toEqual(["bottle 5"]);
    for (const { leftOut } of [evidence, ...byCell]) {
      expect(leftOut[0]!.why).toMatch(/leaked, tripped elsewhere or is mislabelled/);
    }
  });

  it("a sample that is off equally against both cells is no error of one of them", () => {
    // Residuals of one simulated cast, ppm. The last sample is 0.006 too fresh. A slope with pressure explains that against one cell.
    const rows = [
      [1984, -138, 76, 29],
      [1795, -110, 98, 30],
      [1464, -80, 142, 32],
      [1241, -122, 89, 32],
      [972, -89, 122, 55],
      [792, -150, 60, 64],
      [619, -58, 153, 124],
      [447, -171, 57, 124],
      [275, -116, 118, 97],
      [154, -6, 415, 608],
      [61, -131, 115, 113],
      [6, 47, 255, 26],
    ] as const;
    const laboratory = 26;
    const comparisons = rows.map(([pressure_dbar, primary, secondary, sd], i) => {
      const bottle = { cast: "006", bottle: String(i + 1), pressure_dbar, salinity: 35 };
      return both.map((cell) => ({
        bottle,
        cell,
        residual: cell === "primary" ? primary : secondary,
        laboratory,
        gradient: Math.sqrt(sd ** 2 - laboratory ** 2),
        reading: 0,
        outerHeat_ppm: 0,
        perWake: 0,
        water: { temperature_C: 4, conductivity_mS_cm: 33 },
      }));
    });
    const { evidence } = judgeBottles(
      "006",
      { residuals: comparisons, leftOut: [], notes: [] },
      both,
      usualBottleNoise,
    );
    expect(evidence.leftOut.map(({ what }) => what)).toEqual(["bottle 12 at 6 dbar"]);
    expect(evidence.leftOut[0]!.why).toMatch(/leaked, tripped elsewhere or is mislabelled/);
  });

  it("bottles are compared with the second cell if the first is erratic, and the first is named", () => {
    const { normal } = seeded(6);
    const bottles = beside(
      (cell) => (cell === "primary" ? -30 + 400 * normal() : 80),
      () => 0.001 * normal(),
    );
    const { evidence, shared_ppm, centre } = ofCast(bottles);
    expect(shared_ppm).toBe(0);
    expect(centre!.cell).toBe("secondary");
    expect(Math.abs(centre!.ppm - 80)).toBeLessThan(3 * centre!.standardUncertainty_ppm);
    expect(centre!.standardUncertainty_ppm).toBeLessThan(10);
    expect(evidence.notes.join()).toMatch(/The cell is erratic, not the bottles/);
  });

  it("the bottles are compared with the cell whose readings at closure are less uncertain", () => {
    // An invented cast: the slow cell holds heat at closure. So it reads fresh by an uncertain amount, more in warmer water.
    const held = [0, 10, 20, 40, 60, 90, 160, 280, 460];
    const beforeSlow = (slow: CellName, times: number) => {
      const residuals = held.map((ppm, i) => {
        const bottle = {
          cast: "001",
          bottle: `${i + 1}`,
          pressure_dbar: 3000 - 300 * i,
          salinity: 35,
        };
        return both.map((cell) => ({
          bottle,
          cell,
          residual: cell === slow ? 20 - times * ppm : 20,
          laboratory: 26,
          gradient: 0.1 * ppm,
          reading: cell === slow ? times * ppm : 0,
          outerHeat_ppm: 0,
          perWake: 0,
          water: { temperature_C: 4, conductivity_mS_cm: 33 },
        }));
      });
      return judgeBottles("001", { residuals, leftOut: [], notes: [] }, both, usualBottleNoise);
    };
    for (const slow of both) {
      const { centre } = beforeSlow(slow, 1);
      expect(centre!.cell).toBe(slow === "primary" ? "secondary" : "primary");
      expect(Math.abs(centre!.ppm - 20)).toBeLessThan(1);
    }
    // A little difference does not change the reference from cast to cast.
    expect(beforeSlow("primary", 0.1).centre!.cell).toBe("primary");
  });

  it("two bottles show which cell is erratic, because an error of a bottle is the same against both cells", () => {
    for (const erratic of both) {
      const bottles = beside((cell, i) => (cell === erratic ? 1400 - 600 * i : 20)).slice(0, 2);
      const { centre, evidence } = ofCast(bottles);
      const other = erratic === "primary" ? "secondary" : "primary";
      expect(centre!.cell).toBe(other);
      expect(Math.abs(centre!.ppm - 20)).toBeLessThan(1);
      expect(evidence.notes.join()).toMatch(`${erratic} cell: the bottles scatter against it`);
      const leaked = beside(
        () => 20,
        (i) => 0.03 * i,
      ).slice(0, 2);
      expect(ofCast(leaked).centre!.cell).toBe("primary");
      expect(ofCast(leaked).evidence.notes.join()).not.toMatch(/cell/);
    }
  });

  it("bottles of a spoilt batch scatter against both cells, and no cell is named", () => {
    const { uniform } = seeded(7);
    const { evidence, centre, shared_ppm } = ofCast(
      beside(
        () => 0,
        () => -0.1 * uniform(),
      ),
    );
    expect(centre!.cell).toBe("primary");
    expect(shared_ppm).toBeGreaterThan(300);
    expect(evidence.notes.join()).not.toMatch(/cell/);
  });
});
