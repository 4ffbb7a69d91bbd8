// Whether the difference between the legs begins at a pressure, and which: a film that came at p0 makes the up
// leg differ from the down leg above p0 and leaves both alike below, whichever leg it came on. The step and the
// thermal lag are weighed together, for in a thermocline either can look like the other.
import { balancedSalinity } from "./balancedSalinity.js";
import { type LegNoise, legNoise, wandering } from "./legNoise.js";
import { type LegSeries, matchesPerLayer } from "./legSeries.js";
import type { MatchedLegs } from "./matchLegs.js";
import type { Term } from "./newInLayers.js";
import {
  againstWandering,
  fitBeside,
  lostToLag,
  otherWaters,
  parts,
  type Step,
  searchStep,
  type ThinLayers,
  withoutStep,
} from "./stepSearch.js";

export interface LegStep {
  /** Up minus down above the step less below, ppm. */
  readonly ppm: number;
  /** Probability, given the step, that it lies just above each value of the series; sums to one. */
  readonly probability: Float64Array;
  /** The most probable such value. */
  readonly at: number;
}

/**
 * A step is real where it explains the cast this many times better than lag alone [KassRaftery1995]: were the
 * scatter known, one sound cast in 1000 would show one; it is learnt from the cast. And this many times better than a
 * difference that is the same all the way, or changes evenly with pressure, as between two waters.
 */
const againstNothing = 1000;
/** The same where lag of another shape may be beside both. */
const besideOther = 20;
const againstOthers = 5;
/** The same against differences without a step whose level wanders, as between waters that interleave. */
const besideWandering = 20;
/**
 * Cell, thermometer and pressure gauge together do not repeat better than a few ppm from leg to leg, and in calm
 * deep water that shows: smaller steps than this, ppm (0.0006 in salinity at 35), are not claimed (our judgement).
 */
const leastStep_ppm = 15;
/** The step is looked for again so many times, each time without the last one in the scatter. */
const rounds = 3;
const fewestLayers = 12;
/** Lag before the cast is looked at, in units of the usual; over the cast it may change by this (our judgement). */
const priorLag = 2;
const priorLagChange = 0.2;
const priorRoughness = 1;
/** Of the temperature's wiggles between the legs all may be balanced by salinity, or none. */
const priorBalanced = 1;
/** The lag remembers over this, dbar: a time constant [MorisonEtAl1994] at 1 dbar/s. */
const lagMemory_dbar = 9.5;

/** @returns undefined where no step is real */
export function legsOnset(
  matched: MatchedLegs,
  series: LegSeries,
  lagAmplitude: number,
): LegStep | undefined {
  if (series.index.length < matchesPerLayer * fewestLayers) return undefined;
  const thin = thinLayers(matched, series);
  const lagged = thin.lag[0]!.column.map((lag) => lagAmplitude * lag);
  let best: Step = { ppm: 0, layer: 0, part: 0, lagged, balanced: new Float64Array(lagged.length) };
  for (let round = 1; round < rounds; round++) {
    best = searchStep(thin, fitBeside(thin, noiseWithout(thin, best))).best;
  }
  const noise = noiseWithout(thin, best);
  const beside = fitBeside(thin, noise);
  const found = searchStep(thin, beside);
  const { ppm, ratios } = found;
  if (!(found.log > Math.log(againstNothing) && Math.abs(ppm) >= leastStep_ppm)) return undefined;
  const besideOtherLag = found.log - lostToLag(thin, beside, found.best);
  if (!(besideOtherLag > Math.log(besideOther))) return undefined;
  if (!(found.log > otherWaters(thin, beside) + Math.log(againstOthers))) return undefined;
  const wander = fitBeside(thin, wandering(noise));
  if (!(againstWandering(thin, beside, wander, found) > Math.log(besideWandering)))
    return undefined;
  const total = ratios.reduce((sum, r) => sum + r, 0);
  const probability = new Float64Array(series.index.length);
  for (const [i, ratio] of ratios.entries()) {
    const at = Math.round((matchesPerLayer * i) / parts);
    probability[Math.min(probability.length - 1, at)]! += ratio / total;
  }
  return { ppm, probability, at: probability.indexOf(Math.max(...probability)) };
}

/** Neighbouring matches of one thin layer as one value. */
function thinLayers(matched: MatchedLegs, series: LegSeries): ThinLayers {
  const { difference_ppm, lag_ppm, pressure_dbar, reach } = series;
  const n = Math.floor(difference_ppm.length / matchesPerLayer);
  const mean = (column: Float64Array) =>
    new Float64Array(n).map((_, k) => {
      let sum = 0;
      for (let i = 0; i < matchesPerLayer; i++) sum += column[matchesPerLayer * k + i]!;
      return sum / matchesPerLayer;
    });
  const lag = mean(lag_ppm);
  const pressure = mean(pressure_dbar);
  return {
    difference: mean(difference_ppm),
    pressure,
    lag: lagTerms(lag, pressure),
    balanced: { column: balancedOf(matched, series, mean), prior: priorBalanced },
    otherLag: otherLag(lag, pressure),
    reach: Math.max(2, Math.round(reach / matchesPerLayer)),
  };
}

/** The usual lag, and as either leg began, which is a guess: of the down leg at the top, of the up leg at the bottom. */
function lagTerms(lag: Float64Array, pressure: Float64Array): readonly Term[] {
  const since = (end: number) =>
    pressure.map((p) => lag[end]! * Math.exp(-Math.abs(p - pressure[end]!) / lagMemory_dbar));
  return [lag, since(0), since(lag.length - 1)].map((column) => ({ column, prior: priorLag }));
}

/** A lag that is not what it is modelled as: of longer or shorter memory, which is smoother or rougher; that changes. */
function otherLag(lag: Float64Array, pressure: Float64Array): readonly Term[] {
  const n = lag.length;
  const span = pressure[n - 1]! - pressure[0]!;
  const smooth = lag.slice();
  const follow = (k: number, before: number) => {
    const kept = Math.exp(-Math.abs(pressure[k]! - pressure[before]!) / lagMemory_dbar);
    smooth[k] = kept * smooth[before]! + (1 - kept) * smooth[k]!;
  };
  for (let k = 1; k < n; k++) follow(k, k - 1);
  for (let k = n - 2; k >= 0; k--) follow(k, k + 1);
  return [
    { column: smooth.map((value, k) => value - lag[k]!), prior: priorRoughness },
    {
      column: lag.map((l, k) => ((2 * (pressure[k]! - pressure[0]!)) / span - 1) * l),
      prior: priorLagChange,
    },
  ];
}

/** Of the matches' mean on both legs. */
function balancedOf(
  matched: MatchedLegs,
  { index }: LegSeries,
  mean: (column: Float64Array) => Float64Array,
): Float64Array {
  const own = (column: Float64Array) => mean(Float64Array.from(index, (i) => column[i]!));
  return balancedSalinity({
    pressureUp_dbar: own(matched.pressureUp_dbar),
    pressureDown_dbar: own(matched.pressureDown_dbar),
    potentialTemperature_C: own(matched.potentialTemperature_C),
    salinity: own(matched.salinityDown),
    ppmPerSalinity: own(matched.ppmPerSalinity),
  });
}

function noiseWithout(thin: ThinLayers, step: Step): LegNoise {
  return legNoise(withoutStep(thin, step), step, thin.pressure, thin.reach);
}
