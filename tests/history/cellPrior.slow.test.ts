// The history of a cell as the prior of its next cruise, on invented ships whose true gains are known.
import { beforeAll, describe, expect, it } from "vitest";
import type { CellRecord } from "../../src/history/cellRecord.js";
import { assessCruise, type CellName, type Cruise } from "../../src/index.js";
import { cruisePriors } from "../../src/verdict/history/cruisePriors.js";
import { serialOf, thirdOf, unmeasured, upTo } from "./shipOverYears.js";

const cells = ["primary", "secondary"] as const;

type Third = ReturnType<typeof thirdOf>;

/** How far the prior of each cell is from the truth, in its own standard deviations. */
function priorsOf({ cruise, history, clean, pressure }: Third, seed: number) {
  const serials = cells.map((cell) => serialOf(seed, cell));
  const { byCell } = cruisePriors(cruise, cells, serials, history);
  return cells.map((cell) => {
    const carried = byCell[cell]!;
    return {
      clean: (carried.clean!.mean - clean[cell]) / carried.clean!.sd,
      pressure: (carried.pressure.mean - pressure[cell]) / carried.pressure.sd,
      sd: carried.clean!.sd,
    };
  });
}

interface Outcome {
  readonly error: number;
  readonly standardUncertainty: number;
  readonly held: boolean;
}

/** What the newest cast says of each cell, beside the truth. */
function outcomesOf(
  cruise: Cruise,
  history: readonly CellRecord[],
  truth: Third["clean"],
): Readonly<Record<CellName, Outcome>> {
  const told = assessCruise(cruise, { history }).casts.at(-1)!;
  const of = (cell: CellName): Outcome => {
    const { ppm, standardUncertainty, interval95 } = told.cells[cell]!.gainError.up;
    const [low, high] = interval95;
    const held = low <= truth[cell] && truth[cell] <= high;
    return { error: ppm - truth[cell], standardUncertainty, held };
  };
  return { primary: of("primary"), secondary: of("secondary") };
}

const rms = (some: readonly { readonly error: number }[]) =>
  Math.sqrt(some.reduce((sum, { error }) => sum + error ** 2, 0) / some.length);
const share = (some: readonly unknown[], of: readonly unknown[]) => some.length / of.length;

describe("44 cells of 22 ships over three cruises, 200 days apart (seeds 1 to 22)", () => {
  let thirds: readonly Third[];
  let priors: readonly ReturnType<typeof priorsOf>[number][];
  beforeAll(() => {
    // Half of the ships break the assumption: their cells walk three times as fast as a well-kept cell.
    thirds = Array.from({ length: 22 }, (_, i) =>
      thirdOf({ seed: 1 + i, days: 200, walk: i % 2 === 0 ? 0.5 : 1.5, casts: 2 }),
    );
    priors = thirds.flatMap((third, i) => priorsOf(third, 1 + i));
  });

  it("the 95 % interval of the prior contains the true clean gain of at least 39 cells of 44", () => {
    // Binomial(44, 0.95) is below 39 with a probability of 2 %.
    expect(priors).toHaveLength(44);
    expect(priors.filter(({ clean }) => Math.abs(clean) < 1.96).length).toBeGreaterThanOrEqual(39);
    // The usual prior of an unknown cell is 35 ppm, or 130: it must say more than that to be of use.
    expect(Math.max(...priors.map(({ sd }) => sd))).toBeLessThan(35);
  });

  it("the 95 % interval of the prior contains the true pressure response of at least 39 cells of 44", () => {
    const held = priors.filter(({ pressure }) => Math.abs(pressure) < 1.96);
    expect(held.length).toBeGreaterThanOrEqual(39);
  });

  for (const [what, made] of [
    ["with its bottles measured", (cruise: Cruise) => cruise],
    ["before a bottle is measured", unmeasured],
  ] as const) {
    it(`the first verdict of the third cruise, ${what}, is no worse with the history than without`, () => {
      const told = (known: boolean) =>
        thirds.flatMap(({ cruise, history, clean }) =>
          Object.values(outcomesOf(made(upTo(cruise, 1)), known ? history : [], clean)),
        );
      const [own, bare] = [told(true), told(false)];
      console.info(what, "rms, ppm, with:", rms(own).toFixed(1), "without:", rms(bare).toFixed(1));
      expect(rms(own)).toBeLessThan(1.03 * rms(bare));
      expect(
        share(
          own.filter(({ held }) => held),
          own,
        ),
      ).toBeGreaterThanOrEqual(39 / 44);
    });
  }
});

describe("a cell that was calibrated in port without a word in any file (6 ships a size, seeds 101 to 106)", () => {
  for (const recalibrated of [-200, 60]) {
    let own: Readonly<Record<1 | 3, readonly Outcome[]>>;
    let bare: readonly Outcome[];
    beforeAll(() => {
      const thirds = Array.from({ length: 6 }, (_, i) =>
        thirdOf({ seed: 101 + i, days: 200, walk: 0.5, recalibrated, casts: 3 }),
      );
      const outcomes = (casts: number, known: boolean) =>
        thirds.map(
          ({ cruise, history, clean }) =>
            outcomesOf(upTo(cruise, casts), known ? history : [], clean).primary,
        );
      own = { 1: outcomes(1, true), 3: outcomes(3, true) };
      bare = outcomes(3, false);
    });

    it(`its gain, ${recalibrated} ppm off its history, is found within three casts with bottles`, () => {
      console.info(recalibrated, "rms, ppm, with:", rms(own[3]), "without:", rms(bare));
      // Of a shift of 60 ppm, 2.5 standard deviations of the prior, a quarter may stay in the estimate (derived).
      expect(rms(own[3])).toBeLessThan(rms(bare) + 0.25 * 60);
      expect(own[3].filter(({ held }) => held).length).toBeGreaterThanOrEqual(5);
    });

    it(`no verdict is sure of the gain that the cell had ${recalibrated} ppm away`, () => {
      for (const { error, standardUncertainty } of [...own[1], ...own[3]])
        expect(Math.abs(error) / standardUncertainty).toBeLessThan(3);
    });
  }
});
