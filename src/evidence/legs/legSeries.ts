// The differences between the matched legs with thermal lag taken out, how much they scatter and how long they
// remember, all learnt from the cast itself.
import { median } from "../../statistics/robustCentre.js";
import { runningMean } from "../../statistics/runningSum.js";
import { fitThermalLag, type LagFit } from "./fitThermalLag.js";
import type { MatchedLegs } from "./matchLegs.js";
import { waterScatter } from "./waterScatter.js";

/** The matched differences that were used; one value a match. */
export interface LegSeries {
  /** Positions in the matched legs. */
  readonly index: Uint32Array;
  /** Mean of both legs', dbar. */
  readonly pressure_dbar: Float64Array;
  /** As matched, and what the usual lag makes of it. */
  readonly difference_ppm: Float64Array;
  readonly lag_ppm: Float64Array;
  /** With the lag taken out. */
  readonly value_ppm: Float64Array;
  readonly standardDeviation_ppm: Float64Array;
  /** Variance of a mean of n values is this / n times theirs. */
  readonly memory: Float64Array;
  /** Values over which it is taken to forget itself. */
  readonly reach: number;
}

/** A step that is known of: the difference is this much more above this pressure than below. */
export interface KnownStep {
  readonly ppm: number;
  readonly pressure_dbar: number;
}

export interface FittedSeries {
  readonly series: LegSeries;
  readonly lag: LagFit;
  /** Matches that make a layer whose error is independent of its neighbours'. */
  readonly size: number;
  /** Matches left out because their temperature is found with different salinities. */
  readonly ambiguous: number;
}

/** Each thin layer of either leg is matched once. */
export const matchesPerLayer = 2;
/** Layers are this thick, dbar, or this share of the cast, whichever is less; in a deep cast, this share. */
const thick_dbar = 80;
const thickShare = 1 / 8;
const deepShare = 1 / 25;
/** A layer holds at least this many matches, and this many times the length over which they remember. */
const fewestValues = 12;
const memories = 4;
/** Scatter is learnt over stretches of this, dbar. */
const scatterReach_dbar = 80;
/** Salinities of one temperature that differ by this many times the scatter are of different waters. */
const ambiguous = 4;
/** No match's difference scatters less than this, ppm. */
const floor_ppm = 2;
/** Where too few tell, they scatter by this, ppm: 0.01 in salinity (our judgement). */
const unknown_ppm = 250;
/**
 * The lag is fitted through its course over this, dbar: finer, it follows the very wiggles of temperature that
 * come with the salinities compared, and would be found where there is none.
 */
const lagSmoothing_dbar = 20;
const lagSmoothingShare = 1 / 20;

/** The lag is fitted inside stretches of this, dbar, or this share of the cast. */
const stretch_dbar = 150;
const stretchShare = 1 / 4;
/**
 * Lag, scatter and what is ambiguous are found from each other, this many times over, or until the lag moves by less
 * than this share of its standard uncertainty and as small a share of the matches is left out.
 */
const rounds = 3;
const settled = { lag: 0.1, matches: 0.01 };

/** @param step is neither scatter nor lag */
export function legSeries(matched: MatchedLegs, step?: KnownStep): FittedSeries {
  let index = Uint32Array.from(matched.difference_ppm.keys());
  let size = layerSize(matched);
  const smoothLag = runningMean(matched.lag_ppm, lagSmoothing(matched));
  let lag: LagFit = { amplitude: 0, standardUncertainty: 0 };
  const difference = withoutStep(matched, step);
  // Both through the same mean: a course smoothed alone would be found too strong.
  const smoothDifference = runningMean(difference, lagSmoothing(matched));
  let scatter = scatterOf(matched, difference, index, lag, size);
  for (let round = 0; round < rounds; round++) {
    const before = lag.amplitude;
    lag = fitThermalLag({
      difference: pick(smoothDifference, index),
      lag: pick(smoothLag, index),
      standardDeviation: scatter.standardDeviation_ppm,
      memory: scatter.memory,
      stretch: Math.max(size, stretchSize(matched)),
    });
    const clear = index.filter(
      (i, k) => matched.ambiguity_ppm[i]! <= ambiguous * scatter.standardDeviation_ppm[k]!,
    );
    const moved = Math.abs(lag.amplitude - before) > settled.lag * lag.standardUncertainty;
    if (!moved && index.length - clear.length < settled.matches * index.length) break;
    if (clear.length > size) index = clear;
    scatter = scatterOf(matched, difference, index, lag, size);
    const wanted = Math.ceil((memories * (median(scatter.memory) - 1)) / 2);
    size = Math.min(Math.max(size, wanted), Math.max(size, Math.floor(index.length / 3)));
  }
  const left = matched.difference_ppm.length - index.length;
  const series = {
    index,
    pressure_dbar: pick(meanPressure(matched), index),
    difference_ppm: pick(matched.difference_ppm, index),
    lag_ppm: pick(matched.lag_ppm, index),
    ...scatter,
    reach: Math.min(size, scatterReach(matched)),
  };
  return { series: stepped(series, step), lag, size, ambiguous: left };
}

/** Matches in a layer. */
function layerSize(matched: MatchedLegs): number {
  const { thickness_dbar } = matched;
  const span = spanOf(matched);
  const thick = Math.max(Math.min(thick_dbar, thickShare * span), deepShare * span);
  return Math.max(fewestValues, Math.round((matchesPerLayer * thick) / thickness_dbar));
}

function stretchSize(matched: MatchedLegs): number {
  const stretch = Math.min(stretch_dbar, stretchShare * spanOf(matched));
  return Math.round((matchesPerLayer * stretch) / matched.thickness_dbar);
}

/** In matches. */
function scatterReach({ thickness_dbar }: MatchedLegs): number {
  return Math.round((matchesPerLayer * scatterReach_dbar) / thickness_dbar);
}

/** Half-width of the running mean, in matches. */
function lagSmoothing(matched: MatchedLegs): number {
  const smoothing = Math.min(lagSmoothing_dbar, lagSmoothingShare * spanOf(matched));
  return Math.round((matchesPerLayer * smoothing) / matched.thickness_dbar);
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

function withoutStep(matched: MatchedLegs, step: KnownStep | undefined): Float64Array {
  if (step === undefined) return matched.difference_ppm;
  const pressure = meanPressure(matched);
  return matched.difference_ppm.map((d, i) =>
    pressure[i]! < step.pressure_dbar ? d - step.ppm : d,
  );
}

/** The series with its step put back. */
function stepped(series: LegSeries, step: KnownStep | undefined): LegSeries {
  if (step === undefined) return series;
  const value_ppm = series.value_ppm.map((value, k) =>
    series.pressure_dbar[k]! < step.pressure_dbar ? value + step.ppm : value,
  );
  return { ...series, value_ppm };
}

/** What is left of the differences without the lag, how it scatters and remembers. */
function scatterOf(
  matched: MatchedLegs,
  difference: Float64Array,
  index: Uint32Array,
  { amplitude }: LagFit,
  size: number,
): Pick<LegSeries, "value_ppm" | "standardDeviation_ppm" | "memory"> {
  const lag_ppm = pick(matched.lag_ppm, index);
  const value_ppm = pick(difference, index).map((d, k) => d - amplitude * lag_ppm[k]!);
  const reach = Math.min(size, scatterReach(matched));
  const { standardDeviation, memory } = waterScatter(value_ppm, reach);
  const standardDeviation_ppm = standardDeviation.map((s) =>
    Number.isFinite(s) ? Math.max(s, floor_ppm) : unknown_ppm,
  );
  return { value_ppm, standardDeviation_ppm, memory };
}
