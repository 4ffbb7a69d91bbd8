// The differences between the matched legs after the lag correction. Their scatter and correlation length are estimated
// from the cast itself.
import type { CellLagFit, KnownStep } from "../../response/lag/cellLag.js";
import { ambiguousBeyond, type MatchedLegs } from "../../response/match/matchLegs.js";
import { waterScatter } from "../../response/match/waterScatter.js";
import { median } from "../../statistics/robustCentre.js";
import { type FreshChange, freshChange } from "./upperWater.js";

/** The matched differences that are used; one value for each match. */
export interface LegSeries {
  /** Positions in the matched legs. */
  readonly index: Uint32Array;
  /** Mean pressure of both legs, dbar. */
  readonly pressure_dbar: Float64Array;
  /**
   * The matched difference; the effect of the usual lag on it, and the derivative of that with respect to the time constant;
   * the effect of heat in the outer parts of the cell.
   */
  readonly difference_ppm: Float64Array;
  readonly lag_ppm: Float64Array;
  readonly lagPerTau_ppm: Float64Array;
  readonly outerHeat_ppm: Float64Array;
  readonly fresh: FreshChange;
  /** The difference after the lag correction. */
  readonly value_ppm: Float64Array;
  readonly standardDeviation_ppm: Float64Array;
  /** The variance of a mean of n values is this / n times their variance. */
  readonly memory: Float64Array;
  /** Correlation length, in values. */
  readonly reach: number;
}

interface SizedSeries {
  readonly series: LegSeries;
  /** Number of matches in a layer with an error independent of its neighbours'. */
  readonly size: number;
  /** Number of matches excluded because their temperature occurs with different salinities. */
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
/** A layer has at least this many matches, and at least this many correlation lengths (judgement). */
const fewestValues = 12;
const memories = 4;
/** Scatter is estimated over stretches of this thickness, dbar (judgement: as thick as a layer). */
const scatterReach_dbar = 80;
/**
 * Ambiguous matches and scatter depend on each other: maximum number of iterations, and share of excluded matches at which
 * to stop (judgement).
 */
const rounds = 3;
const settled = 0.01;

/**
 * @param lag  fitted to the same matches
 * @param step is excluded from the scatter
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
    // It is at most a third of the matches (judgement).
    size = Math.min(Math.max(size, wanted), Math.max(size, Math.floor(index.length / 3)));
    if (few) break;
  }
  const pressure_dbar = pick(pressure, index);
  const series = {
    index,
    pressure_dbar,
    fresh: freshChange({
      pressure_dbar,
      salinity: pick(matched.salinityDown, index),
      ppmPerSalinity: pick(matched.ppmPerSalinity, index),
    }),
    difference_ppm: pick(matched.difference_ppm, index),
    lag_ppm: pick(perTimesUsual_ppm, index),
    lagPerTau_ppm: pick(lag.perTau_ppm, index),
    outerHeat_ppm: pick(lag.outerHeat_ppm, index),
    value_ppm: pick(rest, index),
    standardDeviation_ppm: scatter.standardDeviation,
    memory: scatter.memory,
    reach: reachOf(),
  };
  return { series, size, ambiguous: matched.difference_ppm.length - index.length };
}

/** Number of matches in a layer. */
function layerSize(matched: MatchedLegs): number {
  const { thickness_dbar } = matched;
  const span = spanOf(matched);
  const thick = Math.max(Math.min(thick_dbar, thickShare * span), deepShare * span);
  return Math.max(fewestValues, Math.round((matchesPerLayer * thick) / thickness_dbar));
}

/** Unit: matches. */
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
