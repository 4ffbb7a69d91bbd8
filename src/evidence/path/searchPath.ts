// Search for a film that came at some place of the path and faded over some distance, or stayed. The evidence of all places
// and distances is computed at once. Other effects in the readings are linear terms with normal priors, so that every
// evidence has a closed form. Sums over the readings after a place are accumulated along the path, so that the cost is only
// places times distances.
import { logSum } from "../../statistics/logSum.js";
import { normalLogCdf } from "../../statistics/normal.js";
import { priorStep_ppm } from "../legs/stepThresholds.js";
import type { Path } from "./alongPath.js";
import { filmEvidence } from "./filmEvidence.js";

/** If the log evidence is this much below the best, the sign of the film is not computed (exp(-30) is 1e-13; judgement). */
const beside = 30;

/** Films that fade over one distance as explanations, one value for each place. */
export interface PathSearch {
  /** Distance along the path over which the film falls to 1/e, dbar; infinite if it stays. */
  readonly recovery_dbar: number;
  /** Path at which it came, dbar, rising. */
  readonly onset_dbar: Float64Array;
  /** Share of the path that each place represents; 0 near its ends. */
  readonly prior: Float64Array;
  /** Natural logarithm of the evidence ratio against no film. */
  readonly log: Float64Array;
  /** Size when it came, ppm: most probable value and standard deviation, without the sign constraint. */
  readonly ppm: Float64Array;
  readonly standardDeviation_ppm: Float64Array;
  /** The logarithm over all places; minus infinity if there are none. */
  readonly logOfAll: number;
}

/**
 * Films that fade over one distance, dbar; infinite for lasting films.
 * @param sign 1 for readings that rise and stay: a film that was there before the cast leaves
 */
export function searchPath(
  { at, signed, partner, clean, unit, terms, onset_dbar, prior }: Path,
  recovery_dbar: number,
  sign: 1 | -1 = -1,
): PathSearch {
  const places = onset_dbar.length;
  const log = new Float64Array(places);
  const ppm = new Float64Array(places);
  const standardDeviation_ppm = new Float64Array(places);
  const common = new Float64Array(terms);
  let most = 0;
  let withClean = 0;
  let withItself = 0;
  // The share of the film that is left half-way to the next reading.
  let faded = 1;
  for (let i = 0; i < places; i++) {
    if (i > 0) {
      const kept = faded * faded;
      withClean *= kept;
      withItself *= kept * kept;
      for (let j = 0; j < terms; j++) common[j]! *= kept;
    }
    const w = signed[i]!;
    withClean += w * clean[i]!;
    withItself += Math.abs(w);
    if (partner[i]! >= 0) withItself -= 2 * Math.abs(w) * Math.exp(-partner[i]! / recovery_dbar);
    // It came somewhere between this reading and the one before.
    const gap = at[i]! - at[i + 1]!;
    faded = Math.exp(-gap / 2 / recovery_dbar);
    let shared = 0;
    for (let j = 0, u = i * terms; j < terms; j++, u++) {
      const sum = common[j]! + w * unit[u]!;
      common[j] = sum;
      shared += sum * sum;
    }
    const information = faded * faded * Math.max(0, withItself - shared) + priorStep_ppm ** -2;
    const size = (faded * withClean) / information;
    const k = places - 1 - i;
    ppm[k] = size;
    standardDeviation_ppm[k] = 1 / Math.sqrt(information);
    const evidence = filmEvidence(size, information);
    if (evidence > most) most = evidence;
    log[k] = evidence;
    if (evidence >= most - beside) log[k]! += normalLogCdf(sign * size * Math.sqrt(information));
  }
  const logOfAll = logSum(log, prior);
  return { recovery_dbar, onset_dbar, prior, log, ppm, standardDeviation_ppm, logOfAll };
}
