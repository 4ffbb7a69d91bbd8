// The differences between the matched legs with thermal lag taken out; how much they scatter and how long they remember is
// learnt from the cast itself.
import type { CellLagFit, KnownStep } from "../../response/lag/cellLag.js";
import { ambiguousBeyond, type MatchedLegs } from "../../response/match/matchLegs.js";
import { waterScatter } from "../../response/match/waterScatter.js";
import { median } from "../../statistics/robustCentre.js";

/** The matched differences that are used; one value a match. */
export interface LegSeries {
  /** Positions in the matched legs. */
  readonly index: Uint32Array;
  /** Mean of both legs', dbar. */
  readonly pressure_dbar: Float64Array;
  /** As matched, what a lag of once the usual makes of it, and how much that depends on the time constant. */
  readonly difference_ppm: Float64Array;
  readonly lag_ppm: Float64Array;
  readonly lagPerTau_ppm: Float64Array;
  /** With the fitted lag taken out. */
  readonly value_ppm: Float64Array;
  readonly standardDeviation_ppm: Float64Array;
  /** Variance of a mean of n values is this / n times theirs. */
  readonly memory: Float64Array;
  /** Values over which it is taken to forget itself. */
  readonly reach: number;
}

interface SizedSeries {
  readonly series: LegSeries;
  /** Matches that make a layer whose error is independent of its neighbours'. */
  readonly size: number;
  /** Matches left out because their temperature is found with different salinities. */
  readonly ambiguous: number;
}

/** Each thin layer of either leg is matched once. */
export const matchesPerLayer = 2;
/**
 * Layers are this thick, dbar, or this share of the cast, whichever is less; in a deep cast, the second share (judgement:
 * some eight to twenty-five layers a cast).
 */
const thick_dbar = 80;
const thickShare = 1 / 8;
const deepShare = 1 / 25;
/** A layer holds at least this many matches, and this many times the length over which they remember (judgement). */
const fewestValues = 12;
const memories = 4;
/** Scatter is learnt over stretches of this, dbar (judgement: as thick as a layer). */
const scatterReach_dbar = 80;
/** What is ambiguous and the scatter are found from each other: so often, or until this share of matches is left out (judgement). */
const rounds = 3;
const settled = 0.01;

/**
 * @param lag  fitted to the same matches
 * @param step is not scatter
 */
export function legSeries(matched: MatchedLegs, lag: CellLagFit, step?: KnownStep): SizedSeries {
  let index = Uint32Array.from(matched.difference_ppm.keys());
  let size = layerSize(matched);
  const pressure = meanPressure(matched);
  const { timesUsual, perTimesUsual_ppm } = lag;
  const above = (i: number) => (step && pressure[i]! < step.pressure_dbar ? step.ppm : 0);
  const rest = matched.difference_ppm.map((d, i) => d - timesUsual * perTimesUsual_ppm[i]!);
  const level = rest.map((value, i) => value - above(i));
  const reachOf = () => Math.min(size, scatterReach(matched));
  let scatter = waterScatter(level, reachOf());
  for (let round = 0; round < rounds; round++) {
    const clear = index.filter(
      (i, k) => matched.ambiguity_ppm[i]! <= ambiguousBeyond * scatter.standardDeviation[k]!,
    );
    const few = index.length - clear.length < settled * index.length;
    if (clear.length > size) index = clear;
    scatter = waterScatter(pick(level, index), reachOf());
    const wanted = Math.ceil((memories * (median(scatter.memory) - 1)) / 2);
    // It never takes more than a third of the matches (judgement).
    size = Math.min(Math.max(size, wanted), Math.max(size, Math.floor(index.length / 3)));
    if (few) break;
  }
  const series = {
    index,
    pressure_dbar: pick(pressure, index),
    difference_ppm: pick(matched.difference_ppm, index),
    lag_ppm: pick(perTimesUsual_ppm, index),
    lagPerTau_ppm: pick(lag.perTau_ppm, index),
    value_ppm: pick(rest, index),
    standardDeviation_ppm: scatter.standardDeviation,
    memory: scatter.memory,
    reach: reachOf(),
  };
  return { series, size, ambiguous: matched.difference_ppm.length - index.length };
}

/** Matches in a layer. */
function layerSize(matched: MatchedLegs): number {
  const { thickness_dbar } = matched;
  const span = spanOf(matched);
  const thick = Math.max(Math.min(thick_dbar, thickShare * span), deepShare * span);
  return Math.max(fewestValues, Math.round((matchesPerLayer * thick) / thickness_dbar));
}

/** In matches. */
function scatterReach({ thickness_dbar }: MatchedLegs): number {
  return Math.round((matchesPerLayer * scatterReach_dbar) / thickness_dbar);
}

function spanOf({ pressureUp_dbar }: MatchedLegs): number {
  const n = pressureUp_dbar.length;
  return n > 0 ? pressureUp_dbar[n - 1]! - pressureUp_dbar[0]! : 0;
}

function pick(column: Float64Array, index: Uint32Array): Float64Array {
  const picked = new Float64Array(index.length);
  for (let k = 0; k < picked.length; k++) picked[k] = column[index[k]!]!;
  return picked;
}

function meanPressure({ pressureUp_dbar, pressureDown_dbar }: MatchedLegs): Float64Array {
  return pressureUp_dbar.map((p, i) => (p + pressureDown_dbar[i]!) / 2);
}
