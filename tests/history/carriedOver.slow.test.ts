// The history of a cell as the prior of its next cruise, on invented ships whose true gains are known.
import { describe, expect, it } from "vitest";
import type { CellRecord } from "../../src/history/cellRecord.js";
import { assessCruise, type CellName, type Cruise } from "../../src/index.js";
import { carriedInto } from "../../src/verdict/history/carriedInto.js";
import { cellHistory } from "../../src/verdict/history/cellHistory.js";
import { type ShipScenario, serialOf, shipOverYears, unmeasured, upTo } from "./shipOverYears.js";

const cells = ["primary", "secondary"] as const;

/** The third cruise of a ship, and the history that the first two left. */
function thirdOf(scenario: ShipScenario) {
  const ship = shipOverYears(scenario);
  const history: CellRecord[] = [];
  for (const { cruise } of ship.slice(0, 2)) {
    history.push(...cellHistory(cruise, assessCruise(cruise, { history })));
  }
  return { ...ship[2]!, history };
}

interface Outcome {
  readonly error: number;
  readonly standardUncertainty: number;
  readonly held: boolean;
}

function outcome(
  cruise: Cruise,
  history: readonly CellRecord[],
  cell: CellName,
  truth: number,
): Outcome {
  const { ppm, standardUncertainty, interval95 } = assessCruise(cruise, { history }).casts.at(-1)!
    .cells[cell]!.gainError.up;
  const [low, high] = interval95;
  return { error: ppm - truth, standardUncertainty, held: low <= truth && truth <= high };
}

const rms = (some: readonly { readonly error: number }[]) =>
  Math.sqrt(some.reduce((sum, { error }) => sum + error ** 2, 0) / some.length);
const share = (some: readonly unknown[], of: readonly unknown[]) => some.length / of.length;

describe("44 cells of 22 ships over three cruises, 200 days apart (seeds 1 to 22)", () => {
  // Half of the ships break the assumption: their cells walk three times as fast as a well-kept cell.
  const thirds = Array.from({ length: 22 }, (_, i) =>
    thirdOf({ seed: 1 + i, days: 200, walk: i % 2 === 0 ? 0.5 : 1.5, casts: 3 }),
  );
  const priors = thirds.flatMap(({ cruise, history, clean, pressure }, i) => {
    const serials = cells.map((cell) => serialOf(1 + i, cell));
    const { byCell } = carriedInto(cruise, cells, serials, history);
    return cells.map((cell) => ({
      clean: (byCell[cell]!.clean!.mean - clean[cell]) / byCell[cell]!.clean!.sd,
      pressure: (byCell[cell]!.pressure.mean - pressure[cell]) / byCell[cell]!.pressure.sd,
      sd: byCell[cell]!.clean!.sd,
      probability: byCell[cell]!.probability,
    }));
  });

  it("the prior's 95 % interval holds the true clean gain of at least 39 cells", () => {
    // Binomial(44, 0.95) is below 39 with a probability of 2 %.
    expect(priors).toHaveLength(44);
    expect(priors.filter(({ clean }) => Math.abs(clean) < 1.96).length).toBeGreaterThanOrEqual(39);
    // The usual prior of an unknown cell is 35 ppm, or 130: it must say more than that to be of use.
    expect(Math.max(...priors.map(({ sd }) => sd))).toBeLessThan(35);
  });

  it("the prior's 95 % interval holds the true response to pressure of at least 39 cells", () => {
    const held = priors.filter(({ pressure }) => Math.abs(pressure) < 1.96);
    expect(held.length).toBeGreaterThanOrEqual(39);
  });

  for (const [what, made] of [
    ["with its bottles measured", (cruise: Cruise) => cruise],
    ["before a bottle is measured", unmeasured],
  ] as const) {
    it(`the first verdict of the third cruise, ${what}, is no worse with the history than without`, () => {
      const both = thirds.flatMap(({ cruise, history, clean }) =>
        cells.map((cell) => {
          const first = made(upTo(cruise, 1));
          return {
            with: outcome(first, history, cell, clean[cell]),
            without: outcome(first, [], cell, clean[cell]),
          };
        }),
      );
      const [own, bare] = [both.map((one) => one.with), both.map((one) => one.without)];
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

describe("a cell that was calibrated in port without a word in any file (10 ships a size, seeds 101 to 110)", () => {
  for (const recalibrated of [-200, 60]) {
    const thirds = Array.from({ length: 10 }, (_, i) =>
      thirdOf({ seed: 101 + i, days: 200, walk: 0.5, recalibrated, casts: 4 }),
    );
    const outcomes = (casts: number, known: boolean) =>
      thirds.map(({ cruise, history, clean }) =>
        outcome(upTo(cruise, casts), known ? history : [], "primary", clean.primary),
      );

    it(`its gain, ${recalibrated} ppm off its history, is found within three casts with bottles`, () => {
      const [own, bare] = [outcomes(3, true), outcomes(3, false)];
      console.info(recalibrated, "rms, ppm, with:", rms(own), "without:", rms(bare));
      // Of a shift of 60 ppm, 2.5 standard deviations of the prior, a quarter may stay in the estimate (derived).
      expect(rms(own)).toBeLessThan(rms(bare) + 0.25 * 60);
      expect(own.filter(({ held }) => held).length).toBeGreaterThanOrEqual(8);
    });

    it(`no verdict is sure of the gain that the cell had ${recalibrated} ppm away`, () => {
      for (const { error, standardUncertainty } of [...outcomes(1, true), ...outcomes(3, true)])
        expect(Math.abs(error) / standardUncertainty).toBeLessThan(3);
    });
  }
});
