// The options of the cruise for an open verdict, in order of effort: the next cast, which comes anyway; bottles on it, few
// before many; this cast's samples measured again; a cleaning; the spare.
import type { CellName } from "../../cast/cast.js";
import { type IntensityName, intensityNames } from "../../cast/maintenance.js";
import type { Advice } from "../../cleaning/decision/advice.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import type { Recovery } from "../../model/recovery.js";
import type { BottleDepth } from "../gather/calmDepths.js";
import { bottlesOnNextCast, secondRun } from "./bottleSamplings.js";
import { outlookAfter, type SamplingOutlook } from "./outlook.js";
import { afterMaintenance, nextCast, type Planning, type Sampling } from "./samplings.js";
import { standingOf } from "./settled.js";
import { spareBeside } from "./spareBeside.js";
import { enough, type Option } from "./wouldDecide.js";

/** The means that the cruise has. */
export interface AvailableMeans {
  readonly depths: readonly BottleDepth[];
  /** Largest number of bottles on one cast. */
  readonly mostBottles: number;
  /** The usual cleaning of the cell. */
  readonly usualCleaning?: IntensityName;
  /** The cleanings that fit time, people, instrument and record. */
  readonly advice: Advice;
  readonly recovery: Recovery;
}

/** Numbers of bottles that are tried (judgement: each at most twice the one before). */
const counts = [1, 2, 3, 4, 6, 8, 12, 24];
const close = 0.08;
const drawsWhereClose = 256;
/** Number of bottles for the choice of the depth (judgement). */
const toCompare = 4;
/** Prefer fewer bottles if they settle it nearly as often, within this probability (judgement). */
const asGood = 0.05;
/** Prefer a deeper stop if it settles it less often by at most this probability (judgement). */
const asDeep = 0.02;

/**
 * @param hypotheses posterior after the cast
 * @param now  the same after the maintenance since
 * @param ofThisCast whether one of the two causes passes with the cast
 * @param tell the predictions of the two causes for one row
 */
export function* optionsInOrder(
  planning: Planning,
  cell: CellName,
  hypotheses: readonly Hypothesis[],
  now: readonly Hypothesis[],
  target_ppm: number,
  means: AvailableMeans,
  ofThisCast: boolean,
  tell: (sampling: Sampling) => string | undefined,
): Generator<Option> {
  const { layout } = planning;
  const stands = (then: readonly Hypothesis[]) => standingOf(layout, cell, then, target_ppm);
  const after = ({ branches, rows }: Sampling): SamplingOutlook => {
    const first = outlookAfter(branches, rows, stands);
    // Near the limits of a choice the probability is computed more exactly.
    return Math.abs(first.settles - enough) > close
      ? first
      : outlookAfter(branches, rows, stands, drawsWhereClose);
  };

  yield {
    what: "the next cast without bottles",
    outlook: after(nextCast(planning, now)),
    ...(ofThisCast ? { expects: "a cause of this cast alone has ended by then" } : {}),
  };
  const bottles = fewestBottles(planning, now, means, after);
  if (bottles !== undefined) {
    const expects = tell(bottles.sampling);
    yield { ...bottles, ...(expects === undefined ? {} : { expects }) };
  }
  const again = secondRun(planning, hypotheses);
  if (again !== undefined) {
    yield { what: "a second laboratory run of this cast's samples", outlook: after(again) };
  }
  const cleaning = cleaningOf(means);
  if (cleaning !== undefined) {
    const cleaned = afterMaintenance(planning, now, cleaning, cell, means.recovery);
    const what = `a ${cleaning} of the cell and the cast after it`;
    const expects = "cleaning removes a film and nothing else";
    yield { what, outlook: after(nextCast(planning, cleaned)), expects };
    if (bottles !== undefined) {
      const sampling = bottlesOnNextCast(planning, cleaned, bottles.depth, bottles.some);
      yield {
        what: `${what} with ${bottlesAt(bottles.some, bottles.depth)}`,
        outlook: after(sampling),
        expects,
      };
    }
  }
  if (!fits(means, "exchange")) return;
  const other = layout.cells.find((one) => one !== cell);
  if (other !== undefined) {
    const exchanged = afterMaintenance(planning, now, "exchange", other, means.recovery);
    yield {
      what: `the spare in place of the ${other} cell on the next cast`,
      outlook: after(nextCast(planning, exchanged)),
      expects: "the pair then compares the cell with a third one",
    };
    return;
  }
  const deepest = means.depths.at(-1);
  if (deepest === undefined) return;
  yield {
    what: "the spare on the same water as the cell",
    outlook: after(spareBeside(planning, now, deepest)),
  };
}

interface Bottles {
  readonly what: string;
  readonly depth: BottleDepth;
  /** A few bottles, in combination with other measures. */
  readonly some: number;
  readonly sampling: Sampling;
  readonly outlook: SamplingOutlook;
}

/** The fewest sufficient bottles at the best depth; if all bottles are not sufficient, some or all. */
function fewestBottles(
  planning: Planning,
  now: readonly Hypothesis[],
  { depths, mostBottles }: AvailableMeans,
  after: (sampling: Sampling) => SamplingOutlook,
): Bottles | undefined {
  const possible = counts.filter((count) => count <= mostBottles);
  const some = possible.findLast((count) => count <= toCompare);
  if (some === undefined) return undefined;
  const at = (depth: BottleDepth, count: number): Bottles => {
    const sampling = bottlesOnNextCast(planning, now, depth, count);
    const what = `${bottlesAt(count, depth)} on the next cast`;
    return { what, depth, some, sampling, outlook: after(sampling) };
  };
  const compared = depths.map((depth) => at(depth, some));
  const best = compared.reduce<Bottles | undefined>(
    // Among depths with nearly the same result take the deeper one: its water is calmer than one cast shows.
    (a, b) => (a === undefined || worth(b.outlook) > worth(a.outlook) - asDeep ? b : a),
    undefined,
  );
  if (best === undefined) return undefined;
  const { depth } = best;
  if (best.outlook.settles < enough) {
    const more = possible.filter((count) => count > some);
    const all = more.length === 0 ? best : at(depth, more.at(-1)!);
    if (all.outlook.settles < enough) {
      return best.outlook.settles >= all.outlook.settles - asGood ? best : all;
    }
    return fewest(more.slice(0, -1), all, (count) => at(depth, count));
  }
  return fewest(
    possible.filter((count) => count < some),
    best,
    (count) => at(depth, count),
  );
}

function worth({ settles, leading }: SamplingOutlook): number {
  return settles + leading;
}

/** By bisection: more bottles never settle it less often. */
function fewest(
  fewer: readonly number[],
  enoughOfThem: Bottles,
  at: (count: number) => Bottles,
): Bottles {
  let found = enoughOfThem;
  let [low, high] = [0, fewer.length];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    const tried = at(fewer[middle]!);
    if (tried.outlook.settles >= enough) [high, found] = [middle, tried];
    else low = middle + 1;
  }
  return found;
}

/** "4 bottles at about 1850 dbar". */
function bottlesAt(count: number, { pressure_dbar }: BottleDepth): string {
  const stop = 10 * Math.max(1, Math.round(pressure_dbar / 10));
  return `${count} ${count === 1 ? "bottle" : "bottles"} at about ${stop} dbar`;
}

/** The last cleaning of the cell; otherwise the lightest one above a rinse. */
function cleaningOf(means: AvailableMeans): IntensityName | undefined {
  const light = intensityNames.filter((name) => ["wash", "soak", "disinfect"].includes(name));
  const { usualCleaning } = means;
  const inOrder = usualCleaning === undefined ? light : [usualCleaning, ...light];
  return inOrder.find((name) => fits(means, name));
}

function fits({ advice }: AvailableMeans, intensity: IntensityName): boolean {
  return advice.alternatives.some((one) => one.intensity === intensity && one.fits);
}
