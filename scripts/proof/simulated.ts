// How well verdicts do on simulated cruises whose truth is known: the gain, its interval, the cause, the cleaning.
import type { CellName } from "../../src/cast/cast.js";
import { completed, randomScenario, simulateCruise } from "../../src/simulate/index.js";
import { median } from "../../src/statistics/robustCentre.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";
import { bounds } from "./bound.js";
import { type CauseOutcome, causeOutcome, causesText } from "./causes.js";
import { figureLine, withError } from "./figureLine.js";
import { firstFreshSeed } from "./freshSeeds.js";
import { meanAfterRejection } from "./yardstick.js";

/** One cell on one cast: what was said beside what is true. */
export interface Outcome extends CauseOutcome {
  readonly true_ppm: number;
  readonly said_ppm: number;
  /** The bound of this design, ppm. */
  readonly bound_ppm: number;
  /** The common way, ppm; NaN without bottles. */
  readonly common_ppm: number;
}

/** Outcomes of every cell and cast of one random cruise. */
export function outcomesOf(seed: number): readonly Outcome[] {
  const scenario = randomScenario(seed);
  const { cruise, truth } = simulateCruise(scenario);
  const document = assessCruise(cruise);
  const cells = Object.keys(truth[0]!.cells) as CellName[];
  const limits = bounds(
    cells,
    [...cruiseEvidence(cruise)].map(({ tracked }) => tracked),
    completed(scenario),
    truth,
  );
  return document.casts.flatMap((verdict, i) =>
    cells.map((cell, c): Outcome => {
      const own = truth[i]!.cells[cell]!;
      const said = verdict.cells[cell]!;
      const bottles = cruise.bottles.filter((bottle) => bottle.cast === verdict.cast);
      return {
        ...causeOutcome(own, said),
        true_ppm: own.gain.up,
        said_ppm: said.gainError.up.ppm,
        bound_ppm: limits[i]![c]!,
        common_ppm: meanAfterRejection(bottles, cell, cruise.casts[i]!.data),
      };
    }),
  );
}

const rms = (values: readonly number[]) =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
const share = (part: number, of: number) => `${((100 * part) / of).toFixed(1)} %`;

/** What a design leaves open by less than this, ppm, it can tell: the target of 0.002 in salinity. */
const tellable_ppm = 51;

/** The figures of many cruises, as text; each with its standard error from cruise to cruise. */
export function simulatedReport(cruises: number, onCruise: (done: number) => void): string {
  const byCruise: (readonly Outcome[])[] = [];
  for (let i = 0; i < cruises; i++) {
    byCruise.push(outcomesOf(firstFreshSeed + i));
    onCruise(i + 1);
  }
  const outcomes = byCruise.flat();
  const common = outcomes.filter(({ common_ppm }) => Number.isFinite(common_ppm));
  const tellable = byCruise.map((own) => own.filter(({ bound_ppm }) => bound_ppm < tellable_ppm));
  const ratio = (some: readonly Outcome[]) =>
    rms(some.map(errorOf)) / rms(some.map(({ bound_ppm }) => bound_ppm));
  const errors = outcomes.map(errorOf);
  return [
    `${cruises} cruises (seeds ${firstFreshSeed} to ${firstFreshSeed + cruises - 1}), ${outcomes.length} cells on casts`,
    "± is the standard error from cruise to cruise",
    "",
    figureLine(
      "gain error as the up leg ends, against the truth",
      "rms, ppm   median |error|, ppm",
    ),
    figureLine("  verdict", column(errors)),
    figureLine(
      "  mean of deep residuals after 2.8-sigma rejection",
      column(common.map((o) => o.common_ppm - o.true_ppm)),
    ),
    figureLine("  verdict, on the same casts", column(common.map(errorOf))),
    figureLine(
      "  bound of the design, what happened being told",
      rms(outcomes.map(({ bound_ppm }) => bound_ppm))
        .toFixed(1)
        .padStart(8),
    ),
    figureLine("  ratio of the verdict's rms to the bound", withError(byCruise, ratio, 2)),
    figureLine(
      `  the same where the bound is below ${tellable_ppm} ppm (${share(tellable.flat().length, outcomes.length)})`,
      withError(tellable, ratio, 2),
    ),
    figureLine(
      "  median of |error| / bound, 0.67 where efficient",
      median(outcomes.map((o) => Math.abs(errorOf(o)) / o.bound_ppm))
        .toFixed(2)
        .padStart(8),
    ),
    causesText(byCruise),
  ].join("\n");
}

function errorOf({ said_ppm, true_ppm }: Outcome): number {
  return said_ppm - true_ppm;
}

function column(errors: readonly number[]): string {
  return `${rms(errors).toFixed(1).padStart(8)}   ${median(errors.map(Math.abs)).toFixed(1).padStart(8)}`;
}
