// The quality of the salinity of a cast.
import { estimate } from "../../model/estimate.js";
import { type Mixture, mixtureBeyond } from "../../statistics/mixture.js";
import type { DataQuality } from "../verdict.js";

/** A gain error of this size or more cannot be corrected by a single number, ppm: 1 % of conductivity (judgement). */
const hopeless_ppm = 10_000;
/** Largest probability of an error beyond the target for the quality "sound" (judgement, as the required confidence). */
const leastSure = 0.1;

/** Within the target without correction, within it after correction, neither, or not correctable. */
export function dataQuality(
  gains: readonly Mixture[],
  target_ppm: number,
  everObserved: boolean,
): DataQuality {
  if (!everObserved) return "questionable";
  const worst = Math.max(...gains.map((gain) => mixtureBeyond(gain, target_ppm)));
  if (worst < leastSure) return "sound";
  const estimates = gains.map((gain) => estimate(gain));
  if (estimates.some(({ ppm }) => Math.abs(ppm) > hopeless_ppm)) return "bad";
  // Half the width of the 95 % interval is the remaining error of a corrected salinity.
  const left = Math.max(...estimates.map(({ interval95: [low, high] }) => (high - low) / 2));
  return left <= target_ppm ? "usable-after-correction" : "questionable";
}

const order: readonly DataQuality[] = ["sound", "usable-after-correction", "questionable", "bad"];

export function worstQuality(qualities: readonly DataQuality[]): DataQuality {
  return order[Math.max(...qualities.map((quality) => order.indexOf(quality)))] ?? "questionable";
}
