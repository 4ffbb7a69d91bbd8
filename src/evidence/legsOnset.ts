// Whether the difference between the legs begins at a pressure, and which: a film that came at p0 makes the up
// leg differ from the down leg above p0 and leaves both alike below, whichever leg it came on.
import type { LegLayer, LegSeries } from "./legLayers.js";

export interface LegStep {
  /** Up minus down above the step, ppm. */
  readonly ppm: number;
  readonly standardUncertainty_ppm: number;
  /** Probability, given the step, that it lies just above each value of the series; sums to one. */
  readonly probability: Float64Array;
  /** The most probable such value. */
  readonly at: number;
}

/** Steps are of this size before the cast is looked at, ppm, as a standard deviation: 0.012 in salinity at 35. */
const priorStep_ppm = 300;
/**
 * A step is real where it explains the layers this many times better than no difference at all (so that sound
 * casts show one in at most 1 in 100 [KassRaftery1995]), and this many times better than a difference that is
 * the same all the way, or changes evenly with pressure, as two waters do.
 */
const againstNothing = 100;
const againstOthers = 5;
/** The step is placed within this many layers of the best boundary. */
const reachLayers = 1.5;

/** @returns undefined where no step is real */
export function legsOnset(layers: readonly LegLayer[], series: LegSeries): LegStep | undefined {
  if (layers.length < 3) return undefined;
  const evidence: number[] = [];
  const sums = { information: 0, weighted: 0 };
  for (const { value_ppm, variance_ppm2 } of layers) {
    sums.information += 1 / variance_ppm2;
    sums.weighted += value_ppm / variance_ppm2;
    evidence.push(logEvidence(sums.information, sums.weighted));
  }
  const throughout = evidence.pop()!;
  const best = evidence.indexOf(Math.max(...evidence));
  const step = logMean(evidence);
  const others = Math.max(throughout, trendEvidence(layers));
  if (step < Math.log(againstNothing) || step < others + Math.log(againstOthers)) return undefined;
  return placeStep(layers, best, series);
}

/** Log of the evidence for a constant of prior N(0, priorStep^2) against 0. */
function logEvidence(information: number, weighted: number): number {
  const prior = priorStep_ppm ** -2;
  return (
    0.5 * Math.log(prior / (prior + information)) + (0.5 * weighted ** 2) / (prior + information)
  );
}

function logMean(logs: readonly number[]): number {
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, l) => sum + Math.exp(l - most), 0) / logs.length);
}

/** Log of the evidence for a straight line in pressure, level and slope each of the prior above. */
function trendEvidence(layers: readonly LegLayer[]): number {
  const first = layers[0]!.pressure_dbar;
  const span = layers.at(-1)!.pressure_dbar - first;
  const prior = priorStep_ppm ** -2;
  let a = prior;
  let b = 0;
  let c = prior;
  let u = 0;
  let v = 0;
  for (const { pressure_dbar, value_ppm, variance_ppm2 } of layers) {
    const x = (2 * (pressure_dbar - first)) / span - 1;
    a += 1 / variance_ppm2;
    b += x / variance_ppm2;
    c += (x * x) / variance_ppm2;
    u += value_ppm / variance_ppm2;
    v += (x * value_ppm) / variance_ppm2;
  }
  const determinant = a * c - b * b;
  const fit = (c * u * u - 2 * b * u * v + a * v * v) / determinant;
  return 0.5 * Math.log(prior ** 2 / determinant) + 0.5 * fit;
}

/** Where in the series the step lies, by the same evidence at every value near the best boundary. */
function placeStep(layers: readonly LegLayer[], best: number, series: LegSeries): LegStep {
  const { value_ppm, standardDeviation_ppm, memory, pressure_dbar } = series;
  const above = layers[best]!.pressure_dbar;
  const below = layers[best + 1]!.pressure_dbar;
  const middle = (above + below) / 2;
  const reach = reachLayers * (below - above);
  const logs = new Float64Array(value_ppm.length).fill(Number.NEGATIVE_INFINITY);
  const upper = layers.slice(0, best + 1);
  const information = upper.reduce((sum, layer) => sum + 1 / layer.variance_ppm2, 0);
  const ppm =
    upper.reduce((sum, layer) => sum + layer.value_ppm / layer.variance_ppm2, 0) / information;
  // A value that is far from both levels is a spike and says nothing of the place.
  const cost = (z: number) => Math.min(z * z, 9);
  let log = 0;
  for (let k = 0; k < value_ppm.length; k++) {
    if (Math.abs(pressure_dbar[k]! - middle) > reach) continue;
    logs[k] = log;
    const scale = standardDeviation_ppm[k]!;
    const with_ = cost((value_ppm[k]! - ppm) / scale);
    const without = cost(value_ppm[k]! / scale);
    log += (without - with_) / (2 * memory[k]!);
  }
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const weights = logs.map((l) => Math.exp(l - most));
  const total = weights.reduce((sum, w) => sum + w, 0);
  const probability = weights.map((w) => w / total);
  return {
    ppm,
    standardUncertainty_ppm: 1 / Math.sqrt(information),
    probability,
    at: probability.indexOf(probability.reduce((a, b) => Math.max(a, b))),
  };
}
