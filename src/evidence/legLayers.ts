// The matched legs as a few layers, thick enough that their errors are independent, each with the
// difference up minus down and a variance learnt from the cast itself.
import { median } from "../statistics/robustCentre.js";
import type { LeftOut } from "./evidence.js";
import { fitThermalLag, type LagFit } from "./fitThermalLag.js";
import type { MatchedLegs } from "./matchLegs.js";
import { waterScatter } from "./waterScatter.js";

export interface LegLayer {
  readonly pressure_dbar: number;
  readonly value_ppm: number;
  readonly variance_ppm2: number;
}

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
}

/** A step that is known of: the difference is this much more above this pressure than below. */
export interface KnownStep {
  readonly ppm: number;
  readonly pressure_dbar: number;
}

export interface LegLayers {
  /** Shallowest first. */
  readonly layers: readonly LegLayer[];
  readonly series: LegSeries;
  readonly lag: LagFit;
  /** Standard uncertainty that the lag alone brings to the mean of the layers, ppm. */
  readonly lagUncertainty_ppm: number;
  readonly leftOut: readonly LeftOut[];
}

/** Layers are this thick, dbar, or this share of the cast, whichever is less; in a deep cast, this share. */
const thick_dbar = 80;
const thickShare = 1 / 8;
const deepShare = 1 / 25;
/** A layer holds at least this many matched values, and this many times the length over which they remember. */
const fewestValues = 12;
const memories = 4;
/** Each thin layer of either leg is matched once. */
const matchesPerLayer = 2;
/** Scatter is learnt over stretches of this, dbar, in any cast. */
const scatterReach_dbar = 80;
/** A layer with less than this share of its values is left out. */
const leastShare = 1 / 4;
/** Salinities of one temperature that differ by this many times the scatter are of different waters. */
const ambiguous = 4;
/** A value this many standard deviations from its layer's median is a spike. */
const spike = 4;
/** No thin layer's difference scatters less than this, ppm. */
const floor_ppm = 2;
/** Where too few tell, they scatter by this, ppm: 0.01 in salinity (our judgement). */
const unknown_ppm = 250;
/**
 * What cell, thermometer and pressure gauge do not repeat between the legs, on the mean of all layers, ppm: a
 * tenth of a dbar is 1 ppm (our judgement).
 */
const unrepeatable_ppm = 1;
/** The lag is not quite what it is modelled as: this share of what was taken out stays uncertain (our judgement). */
const lagShapeShare = 0.05;
const rounds = 3;

/** @param step is neither scatter nor lag, and no layer goes across it */
export function legLayers(matched: MatchedLegs, step?: KnownStep): LegLayers {
  let index = Uint32Array.from(matched.difference_ppm, (_, i) => i);
  let size = layerSize(matched);
  const smoothLag = runningMean(matched.lag_ppm, lagSmoothing(matched));
  let lag: LagFit = { amplitude: 0, standardUncertainty: 0 };
  const difference = withoutStep(matched, step);
  let series = seriesOf(matched, difference, index, lag, size);
  for (let round = 0; round < rounds; round++) {
    lag = fitThermalLag({
      difference: pick(difference, index),
      lag: pick(smoothLag, index),
      standardDeviation: series.standardDeviation_ppm,
      memory: series.memory,
      stretch: Math.max(size, stretchSize(matched)),
    });
    series = seriesOf(matched, difference, index, lag, size);
    const clear = index.filter(
      (i, k) => matched.ambiguity_ppm[i]! <= ambiguous * series.standardDeviation_ppm[k]!,
    );
    if (clear.length > size) index = clear;
    series = seriesOf(matched, difference, index, lag, size);
    const wanted = Math.ceil((memories * (median(series.memory) - 1)) / 2);
    size = Math.min(Math.max(size, wanted), Math.max(size, Math.floor(index.length / 3)));
  }
  const double = matched.difference_ppm.length - index.length;
  const { layers, meanLags, leftOut } = gatherLayers(matched, stepped(series, step), size, step);
  const lagDeviation = Math.hypot(lag.standardUncertainty, lagShapeShare * lag.amplitude);
  const shares = meanLags.map((mean) => Math.abs(mean) * lagDeviation);
  return {
    layers: consistent(withLag(layers, shares)),
    series: stepped(series, step),
    lag,
    lagUncertainty_ppm: uncertaintyOfMean(layers, shares),
    leftOut: [...leftOut, ...doubleValued(double, matched)],
  };
}

/** Matches in a layer. */
function layerSize(matched: MatchedLegs): number {
  const { thickness_dbar } = matched;
  const span = spanOf(matched);
  const thick = Math.max(Math.min(thick_dbar, thickShare * span), deepShare * span);
  return Math.max(fewestValues, Math.round((matchesPerLayer * thick) / thickness_dbar));
}

/**
 * The lag is fitted through its course over this, dbar: finer, it follows the very wiggles of temperature that
 * come with the salinities compared, and would be found where there is none.
 */
const lagSmoothing_dbar = 20;
const lagSmoothingShare = 1 / 20;

/** The lag is fitted inside stretches of this, dbar, or this share of the cast. */
const stretch_dbar = 150;
const stretchShare = 1 / 4;

function stretchSize(matched: MatchedLegs): number {
  const stretch = Math.min(stretch_dbar, stretchShare * spanOf(matched));
  return Math.round((matchesPerLayer * stretch) / matched.thickness_dbar);
}

/** Half-width of the running mean, in matches. */
function lagSmoothing(matched: MatchedLegs): number {
  const smoothing = Math.min(lagSmoothing_dbar, lagSmoothingShare * spanOf(matched));
  return Math.round((matchesPerLayer * smoothing) / matched.thickness_dbar);
}

function runningMean(column: Float64Array, half: number): Float64Array {
  const sums = new Float64Array(column.length + 1);
  for (let i = 0; i < column.length; i++) sums[i + 1] = sums[i]! + column[i]!;
  return column.map((_, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(column.length, i + half + 1);
    return (sums[to]! - sums[from]!) / (to - from);
  });
}

function spanOf({ pressureUp_dbar }: MatchedLegs): number {
  const n = pressureUp_dbar.length;
  return n > 0 ? pressureUp_dbar[n - 1]! - pressureUp_dbar[0]! : 0;
}

function pick(column: Float64Array, index: Uint32Array): Float64Array {
  return Float64Array.from(index, (i) => column[i]!);
}

function meanPressure({ pressureUp_dbar, pressureDown_dbar }: MatchedLegs, i: number): number {
  return (pressureUp_dbar[i]! + pressureDown_dbar[i]!) / 2;
}

function withoutStep(matched: MatchedLegs, step: KnownStep | undefined): Float64Array {
  if (step === undefined) return matched.difference_ppm;
  return matched.difference_ppm.map((d, i) =>
    meanPressure(matched, i) < step.pressure_dbar ? d - step.ppm : d,
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

function seriesOf(
  matched: MatchedLegs,
  difference: Float64Array,
  index: Uint32Array,
  { amplitude }: LagFit,
  size: number,
): LegSeries {
  const value_ppm = Float64Array.from(
    index,
    (i) => difference[i]! - amplitude * matched.lag_ppm[i]!,
  );
  const reach = Math.round((matchesPerLayer * scatterReach_dbar) / matched.thickness_dbar);
  const { standardDeviation, memory } = waterScatter(value_ppm, Math.min(size, reach));
  const standardDeviation_ppm = standardDeviation.map((s) =>
    Number.isFinite(s) ? Math.max(s, floor_ppm) : unknown_ppm,
  );
  const pressure_dbar = Float64Array.from(index, (i) => meanPressure(matched, i));
  return {
    index,
    pressure_dbar,
    difference_ppm: pick(matched.difference_ppm, index),
    lag_ppm: pick(matched.lag_ppm, index),
    value_ppm,
    standardDeviation_ppm,
    memory,
  };
}

/** Gather the series into layers of equal thickness; each layer's mean, spikes apart. */
function gatherLayers(
  matched: MatchedLegs,
  series: LegSeries,
  size: number,
  step: KnownStep | undefined,
) {
  const { index, pressure_dbar, value_ppm, standardDeviation_ppm, memory } = series;
  const { lag_ppm, thickness_dbar } = matched;
  const layers: LegLayer[] = [];
  const meanLags: number[] = [];
  const leftOut: LeftOut[] = [];
  const thickness = (size * thickness_dbar) / matchesPerLayer;
  for (let from = 0; from < index.length; ) {
    const top = pressure_dbar[from]!;
    const onset =
      step !== undefined && step.pressure_dbar > top ? step.pressure_dbar : top + thickness;
    const end = Math.min(top + thickness, onset);
    let to = from;
    while (to < index.length && pressure_dbar[to]! < end) to++;
    const centre = median(value_ppm.subarray(from, to));
    const kept: number[] = [];
    for (let k = from; k < to; k++) {
      if (Math.abs(value_ppm[k]! - centre) <= spike * standardDeviation_ppm[k]!) kept.push(k);
    }
    const mean = (value: (k: number) => number) =>
      kept.reduce((sum, k) => sum + value(k), 0) / kept.length;
    if (kept.length < Math.max(3, leastShare * size)) {
      const bottom = pressure_dbar[to - 1]!;
      leftOut.push({
        what: `layer from ${top.toFixed(0)} to ${bottom.toFixed(0)} dbar`,
        why: `only ${kept.length} of ${size} thin layers could be compared`,
      });
    } else {
      const scatter = mean((k) => standardDeviation_ppm[k]! ** 2 * memory[k]!);
      layers.push({
        pressure_dbar: mean((k) => pressure_dbar[k]!),
        value_ppm: mean((k) => value_ppm[k]!),
        variance_ppm2: scatter / kept.length,
      });
      meanLags.push(mean((k) => lag_ppm[index[k]!]!));
    }
    from = to;
  }
  // Independent errors of this size leave that of the mean.
  const unrepeatable = layers.length * unrepeatable_ppm ** 2;
  return {
    layers: layers.map((layer) => ({
      ...layer,
      variance_ppm2: layer.variance_ppm2 + unrepeatable,
    })),
    meanLags,
    leftOut,
  };
}

/**
 * The lag's amplitude is one error that all layers share, in the sizes `shares`, while observations have
 * independent errors. A weighted mean of layers taken for independent would be held for too good. So each
 * layer's variance is made larger by the most by which that is true of a mean of the uppermost layers down to
 * it or to any below it: of the whole cast, and of what lies above any onset.
 */
function withLag(layers: readonly LegLayer[], shares: readonly number[]): readonly LegLayer[] {
  const variances = layers.map((layer, b) => layer.variance_ppm2 + shares[b]! ** 2);
  let weight = 0;
  let own = 0;
  let shared = 0;
  const factors = variances.map((variance, b) => {
    weight += 1 / variance;
    own += layers[b]!.variance_ppm2 / variance ** 2;
    shared += shares[b]! / variance;
    return (own + shared ** 2) / weight;
  });
  for (let b = factors.length - 2; b >= 0; b--) factors[b] = Math.max(factors[b]!, factors[b + 1]!);
  return layers.map((layer, b) => ({ ...layer, variance_ppm2: factors[b]! * variances[b]! }));
}

function uncertaintyOfMean(layers: readonly LegLayer[], shares: readonly number[]): number {
  const weights = layers.map((layer, b) => 1 / (layer.variance_ppm2 + shares[b]! ** 2));
  const total = weights.reduce((sum, w) => sum + w, 0);
  return weights.reduce((sum, w, b) => sum + w * shares[b]!, 0) / total;
}

/** Neighbours that differ by more than their variances say make all variances larger (Birge's ratio). */
function consistent(layers: readonly LegLayer[]): readonly LegLayer[] {
  const ratios = layers.slice(1).map((layer, b) => {
    const before = layers[b]!;
    const difference = layer.value_ppm - before.value_ppm;
    return difference ** 2 / (layer.variance_ppm2 + before.variance_ppm2);
  });
  // The greatest may be the step of a film; five ratios of 1 are added for a start.
  const largest = Math.max(0, ...ratios);
  const sum = ratios.reduce((total, ratio) => total + ratio, 0) - largest;
  const factor = Math.max(1, (sum + 5) / (Math.max(0, ratios.length - 1) + 5));
  return layers.map((layer) => ({ ...layer, variance_ppm2: factor * layer.variance_ppm2 }));
}

function doubleValued(count: number, { difference_ppm }: MatchedLegs): readonly LeftOut[] {
  if (count === 0) return [];
  return [
    {
      what: `${count} of ${difference_ppm.length} thin layers`,
      why: "their temperature is found with different salinities on the way down",
    },
  ];
}
