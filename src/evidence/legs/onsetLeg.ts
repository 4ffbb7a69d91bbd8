// The leg on which a film came. The legs differ above the onset and agree below it in both cases. But the leg itself shows
// the jump: salinity changes within a few dbar without a temperature change.

import type { MatchedLegs } from "../../response/match/matchLegs.js";
import { leastSquares } from "../../statistics/leastSquares.js";
import type { LegSeries } from "./legSeries.js";
import type { LegStep } from "./legsOnset.js";
import { mostLegProbability } from "./stepThresholds.js";

/**
 * Salinity is fitted over this distance on either side of a place, dbar, or a share of the cast; or over one of these parts
 * of it, whichever separates the legs best (judgement).
 */
const reach_dbar = 20;
const reachShare = 1 / 40;
const shares = [1, 1 / 2, 1 / 4];
const fewestValues = 8;
/** Jumps of the water without a film are estimated within this many such distances (judgement). */
const quietReaches = 8;
/** Skip places less probable than this share of the best (judgement: cost). */
const negligible = 0.01;
/** A difference this many standard deviations from both levels is a spike (common practice, no source). */
const spike = 4;

/** @returns the probability that the film came on the down leg; 0.5 if the jump does not tell */
export function onsetLeg(matched: MatchedLegs, series: LegSeries, step: LegStep): number {
  const { thickness_dbar } = matched;
  const span = series.pressure_dbar.at(-1)! - series.pressure_dbar[0]!;
  const furthest = Math.round((2 * Math.min(reach_dbar, reachShare * span)) / thickness_dbar);
  const clear = withoutSpikes(series, step.ppm);
  let told = 0;
  // Without information both legs are equally probable (judgement).
  let probability = 0.5;
  for (const share of shares) {
    const half = Math.max(fewestValues, Math.round(share * furthest));
    const jumpsAt = (k: number) => jumps(matched, series, k, half, clear);
    const quiet: (readonly [number, number])[] = [];
    for (let k = step.at - quietReaches * half; k <= step.at + quietReaches * half; k++) {
      if (Math.abs(k - step.at) <= 2 * half || (k - step.at) % 2 !== 0) continue;
      const jump = jumpsAt(k);
      if (jump !== undefined) quiet.push(jump);
    }
    if (quiet.length < 2 * half) continue;
    const noise = covarianceOf(quiet);
    const information = informationOn(noise);
    if (information <= told) continue;
    told = information;
    probability = probabilityDown(step, noise, jumpsAt);
  }
  return Math.min(mostLegProbability, Math.max(1 - mostLegProbability, probability));
}

function probabilityDown(
  { ppm, probability, at }: LegStep,
  noise: Covariance,
  jumpsAt: (k: number) => readonly [number, number] | undefined,
): number {
  let down = 0;
  let up = 0;
  for (const [k, p] of probability.entries()) {
    if (p <= negligible * probability[at]!) continue;
    const jump = jumpsAt(k);
    if (jump === undefined) continue;
    // With increasing depth, a film from the down leg begins on the down leg; a film from the up leg ends on the up leg.
    down += p * density(jump[0] - ppm, jump[1], noise);
    up += p * density(jump[0], jump[1] + ppm, noise);
  }
  // Without information both are equally probable (judgement).
  return down + up > 0 ? down / (down + up) : 0.5;
}

/** Values of the series near one of the two levels. */
function withoutSpikes({ value_ppm, standardDeviation_ppm }: LegSeries, ppm: number): Uint8Array {
  return Uint8Array.from(value_ppm, (value, k) =>
    Math.min(Math.abs(value), Math.abs(value - ppm)) <= spike * standardDeviation_ppm[k]! ? 1 : 0,
  );
}

/**
 * The jump of salinity at value k, with increasing depth, that temperature and pressure do not explain, ppm: down leg, up
 * leg.
 */
function jumps(
  matched: MatchedLegs,
  { index }: LegSeries,
  k: number,
  half: number,
  clear: Uint8Array,
): readonly [number, number] | undefined {
  if (k - half < 0 || k + half > index.length) return undefined;
  const places = Array.from({ length: 2 * half }, (_, j) => j - half).filter((j) => clear[k + j]);
  const own = places.map((j) => index[k + j]!);
  const centre = index[k]!;
  const theta = matched.potentialTemperature_C;
  const thetas = own.map((i) => theta[i]! - theta[centre]!);
  // 1 mK keeps the scale above 0 (judgement).
  const size = Math.max(1e-3, ...thetas.map(Math.abs));
  const design = thetas.map((t, j) => [1, places[j]! / half, t / size, places[j]! < 0 ? 0 : 1]);
  const jump = (salinity: Float64Array) => {
    const y = own.map((i) => (salinity[i]! - salinity[centre]!) * matched.ppmPerSalinity[i]!);
    return leastSquares(design, y)?.coefficients[3];
  };
  const down = jump(matched.salinityDown);
  const up = jump(matched.salinityUp);
  return down === undefined || up === undefined ? undefined : [down, up];
}

interface Covariance {
  readonly down: number;
  readonly up: number;
  readonly both: number;
}

function covarianceOf(jumps: readonly (readonly [number, number])[]): Covariance {
  const mean = (value: (jump: readonly [number, number]) => number) =>
    jumps.reduce((sum, jump) => sum + value(jump), 0) / jumps.length;
  return {
    down: mean(([d]) => d * d),
    up: mean(([, u]) => u * u),
    both: mean(([d, u]) => d * u),
  };
}

/** Distance between the two alternatives, per ppm of step squared: one is (step, 0), the other (0, -step). */
function informationOn({ down, up, both }: Covariance): number {
  return (down + up - 2 * both) / (down * up - both * both) || 0;
}

/** Normal density up to a constant. */
function density(down: number, up: number, { down: dd, up: uu, both }: Covariance): number {
  // An added variance of 1 % keeps nearly identical legs separate (judgement).
  const a = dd * 1.01;
  const b = uu * 1.01;
  const determinant = a * b - both * both;
  return Math.exp(-0.5 * ((b * down * down - 2 * both * down * up + a * up * up) / determinant));
}
