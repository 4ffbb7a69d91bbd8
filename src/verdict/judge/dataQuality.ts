// What the salinity of a cast is worth.
import { estimate } from "../../model/estimate.js";
import { type Mixture, mixtureBeyond } from "../../statistics/mixture.js";
import type { DataQuality } from "../verdict.js";

/** A gain error this large is no longer one number, parts of a million: 1 % of conductivity (judgement). */
const hopeless_ppm = 10_000;
/** Sound where the error is beyond the target with less than this probability (judgement, as the confidence required). */
const leastSure = 0.1;

/** Within the target as it is, within it once the gain error is taken out, neither, or beyond mending. */
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
  // Half the width of the 95 % interval is what a corrected salinity may still be off by.
  const left = Math.max(...estimates.map(({ interval95: [low, high] }) => (high - low) / 2));
  return left <= target_ppm ? "usable-after-correction" : "questionable";
}

const order: readonly DataQuality[] = ["sound", "usable-after-correction", "questionable", "bad"];

export function worstQuality(qualities: readonly DataQuality[]): DataQuality {
  return order[Math.max(...qualities.map((quality) => order.indexOf(quality)))] ?? "questionable";
}
