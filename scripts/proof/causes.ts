// How often verdicts name the right cause, how probable they hold it, and what they advise: against the truth.

import type { CauseName } from "../../src/causes/index.js";
import { causes } from "../../src/causes/index.js";
import { type CellTruth, randomScenario, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { CellVerdict } from "../../src/verdict/verdict.js";
import { figureLine, withError } from "./figureLine.js";
import { firstFreshSeed } from "./freshSeeds.js";

/** One cell on one cast. */
export interface CauseOutcome {
  readonly trueCause: CauseName;
  readonly saidCause: CauseName;
  readonly probability: number;
  readonly deepClean: boolean;
  /** Whether the 95 % interval of the gain as the up leg ends holds the truth. */
  readonly inside: boolean;
}

export function causeOutcome(own: CellTruth, said: CellVerdict): CauseOutcome {
  const leading = said.causes[0]!;
  const [low, high] = said.gainError.up.interval95;
  return {
    trueCause: own.cause,
    saidCause: leading.cause,
    probability: leading.probability,
    deepClean: said.advice.deepClean,
    inside: low <= own.gain.up && own.gain.up <= high,
  };
}

/** The figures of cruises with every look-alike there is, the rarer ones too, as text. */
export function lookAlikesReport(cruises: number, onCruise: (done: number) => void): string {
  const byCruise: (readonly CauseOutcome[])[] = [];
  for (let i = 0; i < cruises; i++) {
    const { cruise, truth } = simulateCruise(randomScenario(firstFreshSeed + i, "all"));
    const document = assessCruise(cruise);
    byCruise.push(
      document.casts.flatMap(({ cells }, k) =>
        Object.entries(truth[k]!.cells).map(([cell, own]) =>
          causeOutcome(own, cells[cell as keyof typeof cells]!),
        ),
      ),
    );
    onCruise(i + 1);
  }
  return [
    `${cruises} cruises (seeds ${firstFreshSeed} to ${firstFreshSeed + cruises - 1}), ${byCruise.flat().length} cells on casts`,
    "± is the standard error from cruise to cruise",
    "",
    causesText(byCruise),
  ].join("\n");
}

/** Intervals, causes, advice, and how far probabilities can be relied on. */
export function causesText(byCruise: readonly (readonly CauseOutcome[])[]): string {
  const outcomes = byCruise.flat();
  const removable = new Set(causes.filter((c) => c.removedByCleaning).map((c) => c.name));
  const notRemovable = byCruise.map((own) => own.filter((o) => !removable.has(o.trueCause)));
  const inVain = notRemovable.flat().filter(({ deepClean }) => deepClean);
  return [
    figureLine(
      "95 % intervals that hold the truth, %",
      withError(
        byCruise,
        percentOf(({ inside }) => inside),
        1,
      ),
    ),
    "",
    figureLine("leading cause right, %", withError(byCruise, percentOf(isRight), 1)),
    figureLine(
      "deep clean advised where cleaning cannot mend, %",
      `${withError(
        notRemovable,
        percentOf(({ deepClean }) => deepClean),
        2,
      )} (${inVain.length} of ${notRemovable.flat().length})`,
    ),
    "",
    "causes, true in rows, said in columns",
    confusion(outcomes),
    "",
    "probability given to the leading cause, and how often it was right",
    reliability(outcomes),
  ].join("\n");
}

function isRight({ trueCause, saidCause }: CauseOutcome): boolean {
  return trueCause === saidCause;
}

function percentOf(holds: (outcome: CauseOutcome) => boolean) {
  return (outcomes: readonly CauseOutcome[]) =>
    (100 * outcomes.filter(holds).length) / outcomes.length;
}

const percent = (part: number, of: number) => `${((100 * part) / of).toFixed(1)} %`;

function confusion(outcomes: readonly CauseOutcome[]): string {
  const rows = [...new Set(outcomes.map(({ trueCause }) => trueCause))].sort();
  const columns = [...new Set(outcomes.map(({ saidCause }) => saidCause))].sort();
  const width = Math.max(...columns.map((name) => name.length)) + 2;
  const line = (name: string, cells: readonly string[]) =>
    `  ${name.padEnd(18)}${cells.map((cell) => cell.padStart(width)).join("")}`;
  return [
    line("", columns),
    ...rows.map((row) =>
      line(
        row,
        columns.map((saidCause) =>
          String(outcomes.filter((o) => o.trueCause === row && o.saidCause === saidCause).length),
        ),
      ),
    ),
  ].join("\n");
}

function reliability(outcomes: readonly CauseOutcome[]): string {
  const edges = [0, 0.5, 0.7, 0.9, 0.97, 1.0001];
  return edges
    .slice(1)
    .map((high, i) => {
      const low = edges[i]!;
      const some = outcomes.filter(({ probability }) => probability >= low && probability < high);
      if (some.length === 0) return `  ${low} to ${Math.min(1, high)}: none`;
      const mean = some.reduce((sum, { probability }) => sum + probability, 0) / some.length;
      const right = some.filter((o) => isRight(o)).length;
      return `  ${low} to ${Math.min(1, high)}: given ${percent(mean, 1)}, right ${percent(right, some.length)} of ${some.length}`;
    })
    .join("\n");
}
