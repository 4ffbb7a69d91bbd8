// How well verdicts do on simulated cruises whose truth is known: the gain, its interval, the cause, the cleaning.
import type { CellName } from "../../src/cast/cast.js";
import type { CauseName } from "../../src/causes/causeNames.js";
import { bankOfCauses } from "../../src/causes/index.js";
import { completed, randomScenario, simulateCruise } from "../../src/simulate/index.js";
import { median } from "../../src/statistics/robustCentre.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { cruiseEvidence } from "../../src/verdict/cruiseEvidence.js";
import { bounds } from "./bound.js";
import { firstFreshSeed } from "./freshSeeds.js";
import { jackknife } from "./jackknife.js";
import { meanAfterRejection } from "./yardstick.js";

/** One cell on one cast: what was said beside what is true. */
export interface Outcome {
  readonly true_ppm: number;
  readonly said_ppm: number;
  readonly interval95: readonly [number, number];
  /** The bound of this design, ppm. */
  readonly bound_ppm: number;
  /** The common way, ppm; NaN without bottles. */
  readonly common_ppm: number;
  readonly trueCause: CauseName;
  readonly saidCause: CauseName;
  readonly probability: number;
  readonly deepClean: boolean;
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
      const leading = said.causes[0]!;
      const bottles = cruise.bottles.filter((bottle) => bottle.cast === verdict.cast);
      return {
        true_ppm: own.gain.up,
        said_ppm: said.gainError.up.ppm,
        interval95: said.gainError.up.interval95,
        bound_ppm: limits[i]![c]!,
        common_ppm: meanAfterRejection(bottles, cell, cruise.casts[i]!.data),
        trueCause: own.cause,
        saidCause: leading.cause,
        probability: leading.probability,
        deepClean: said.advice.deepClean,
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
  const mendable = new Set(bankOfCauses.filter((c) => c.mendedByCleaning).map((c) => c.name));
  const unmendable = byCruise.map((own) => own.filter((o) => !mendable.has(o.trueCause)));
  const inVain = unmendable.flat().filter(({ deepClean }) => deepClean);
  const isRight = (o: Outcome) => o.trueCause === o.saidCause;
  const isInside = ({ interval95: [low, high], true_ppm }: Outcome) =>
    low <= true_ppm && true_ppm <= high;
  const shareOf =
    <Item>(holds: (item: Item) => boolean) =>
    (items: readonly Item[]) =>
      items.filter(holds).length / items.length;
  const ratio = (some: readonly Outcome[]) =>
    rms(some.map(errorOf)) / rms(some.map(({ bound_ppm }) => bound_ppm));
  const line = (words: string, figure: string) => `${words.padEnd(58)}${figure}`;
  const withError = (
    { value, standardError }: ReturnType<typeof jackknife>,
    scale: number,
    digits: number,
  ) =>
    `${(scale * value).toFixed(digits).padStart(8)} ± ${(scale * standardError).toFixed(digits)}`;
  const errors = outcomes.map(errorOf);
  return [
    `${cruises} cruises (seeds ${firstFreshSeed} to ${firstFreshSeed + cruises - 1}), ${outcomes.length} cells on casts`,
    "± is the standard error from cruise to cruise",
    "",
    line("gain error as the up leg ends, against the truth", "rms, ppm   median |error|, ppm"),
    line("  verdict", column(errors)),
    line(
      "  mean of deep residuals after 2.8-sigma rejection",
      column(common.map((o) => o.common_ppm - o.true_ppm)),
    ),
    line("  verdict, on the same casts", column(common.map(errorOf))),
    line(
      "  bound of the design, what happened being told",
      rms(outcomes.map(({ bound_ppm }) => bound_ppm))
        .toFixed(1)
        .padStart(8),
    ),
    line("  ratio of the verdict's rms to the bound", withError(jackknife(byCruise, ratio), 1, 2)),
    line(
      `  the same where the bound is below ${tellable_ppm} ppm (${share(tellable.flat().length, outcomes.length)})`,
      withError(jackknife(tellable, ratio), 1, 2),
    ),
    line(
      "  median of |error| / bound, 0.67 where efficient",
      median(outcomes.map((o) => Math.abs(errorOf(o)) / o.bound_ppm))
        .toFixed(2)
        .padStart(8),
    ),
    line(
      "95 % intervals that hold the truth, %",
      withError(jackknife(byCruise, shareOf(isInside)), 100, 1),
    ),
    "",
    line("leading cause right, %", withError(jackknife(byCruise, shareOf(isRight)), 100, 1)),
    line(
      "deep clean advised where cleaning cannot mend, %",
      `${withError(
        jackknife(
          unmendable,
          shareOf((o) => o.deepClean),
        ),
        100,
        2,
      )} (${inVain.length} of ${unmendable.flat().length})`,
    ),
    "",
    "causes, true in rows, said in columns",
    confusion(outcomes),
    "",
    "probability given to the leading cause, and how often it was right",
    reliability(outcomes),
  ].join("\n");
}

function errorOf({ said_ppm, true_ppm }: Outcome): number {
  return said_ppm - true_ppm;
}

function column(errors: readonly number[]): string {
  return `${rms(errors).toFixed(1).padStart(8)}   ${median(errors.map(Math.abs)).toFixed(1).padStart(8)}`;
}

function confusion(outcomes: readonly Outcome[]): string {
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

function reliability(outcomes: readonly Outcome[]): string {
  const edges = [0, 0.5, 0.7, 0.9, 0.97, 1.0001];
  return edges
    .slice(1)
    .map((high, i) => {
      const low = edges[i]!;
      const some = outcomes.filter(({ probability }) => probability >= low && probability < high);
      if (some.length === 0) return `  ${low} to ${Math.min(1, high)}: none`;
      const mean = some.reduce((sum, { probability }) => sum + probability, 0) / some.length;
      const right = some.filter((o) => o.trueCause === o.saidCause).length;
      return `  ${low} to ${Math.min(1, high)}: given ${share(mean, 1)}, right ${share(right, some.length)} of ${some.length}`;
    })
    .join("\n");
}
