// Something came into a cell at some place of the path and faded over some distance, or stayed: all places and
// distances weighed at once. Beside it stands what else may be in the readings, as linear terms with normal priors,
// so that every evidence is in closed form; sums over what follows a place are carried along the path, so that the
// whole costs no more than places times distances.
import { normalLogCdf } from "../statistics/normal.js";
import type { CleanRows } from "./withoutBackground.js";

/** Films make the gain negative; before the cast is looked at they are of this size, ppm (0.012 in salinity at 35). */
const priorSize_ppm = 300;

/** Natural logarithm of a probability that counts for nothing. */
const beside = 30;

/** What a film that fades over one distance would explain, one value a place. */
export interface PathSearch {
  /** Path over which the film falls to 1/e, dbar; infinite where it stays. */
  readonly recovery_dbar: number;
  /** Path at which it came, dbar, rising. */
  readonly onset_dbar: Float64Array;
  /** Share of the path that each place stands for; sums to 1. */
  readonly prior: Float64Array;
  /** Natural logarithm of the evidence ratio against no film. */
  readonly log: Float64Array;
  /** As it came, ppm: most probable value and standard deviation, were its sign free. */
  readonly ppm: Float64Array;
  readonly standardDeviation_ppm: Float64Array;
}

/** @returns the search for films that fade over one distance, dbar; infinite for those that stay */
export function searchPath(rows: readonly CleanRows[]): (recovery_dbar: number) => PathSearch {
  const path = alongPath(rows);
  return (recovery_dbar) => searchOne(path, recovery_dbar);
}

/** Readings in order of the path, the last first. */
interface Path {
  readonly at: Float64Array;
  /** Weight of the row, with the sign that the reading has in it. */
  readonly signed: Float64Array;
  /** Path from here to the later reading of the same row, dbar; NaN where there is none. */
  readonly partner: Float64Array;
  readonly clean: Float64Array;
  /** Background terms of each reading side by side, so many to a reading. */
  readonly unit: Float64Array;
  readonly terms: number;
}

function alongPath(sources: readonly CleanRows[]): Path {
  const readings: (readonly [at: number, source: number, row: number, sign: number, to: number])[] =
    [];
  for (const [source, { at_dbar, less_dbar, weight }] of sources.entries()) {
    for (let row = 0; row < at_dbar.length; row++) {
      if (!(weight[row]! > 0)) continue;
      const at = at_dbar[row]!;
      const less = less_dbar?.[row] ?? Number.NaN;
      readings.push([at, source, row, 1, less > at ? less - at : Number.NaN]);
      if (less_dbar) readings.push([less, source, row, -1, less <= at ? at - less : Number.NaN]);
    }
  }
  readings.sort((a, b) => b[0] - a[0]);
  const terms = sources.reduce((sum, { unit }) => sum + unit.length, 0);
  const unit = new Float64Array(readings.length * terms);
  for (let i = 0; i < readings.length; i++) {
    const [, source, row] = readings[i]!;
    let j = i * terms;
    for (const [other, { unit: own }] of sources.entries()) {
      if (other === source) for (const [k, column] of own.entries()) unit[j + k] = column[row]!;
      j += own.length;
    }
  }
  const column = (value: (reading: (typeof readings)[number]) => number) =>
    Float64Array.from(readings, value);
  return {
    at: column(([at]) => at),
    signed: column(([, source, row, sign]) => sign * sources[source]!.weight[row]!),
    partner: column((reading) => reading[4]),
    clean: column(([, source, row]) => sources[source]!.clean[row]!),
    unit,
    terms,
  };
}

function searchOne(
  { at, signed, partner, clean, unit, terms }: Path,
  recovery_dbar: number,
): PathSearch {
  const n = at.length;
  const places = Math.max(0, n - 1);
  const onset_dbar = new Float64Array(places);
  const prior = new Float64Array(places);
  const log = new Float64Array(places);
  const ppm = new Float64Array(places);
  const standardDeviation_ppm = new Float64Array(places);
  const whole = n > 0 ? at[0]! - at[n - 1]! : 0;
  const common = new Float64Array(terms);
  let most = 0;
  let withClean = 0;
  let withItself = 0;
  for (let i = 0; i < places; i++) {
    if (i > 0) {
      const kept = Math.exp((at[i]! - at[i - 1]!) / recovery_dbar);
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
    const faded = Math.exp(-gap / 2 / recovery_dbar);
    let shared = 0;
    for (let j = 0, u = i * terms; j < terms; j++, u++) {
      const sum = common[j]! + w * unit[u]!;
      common[j] = sum;
      shared += sum * sum;
    }
    const information = faded * faded * Math.max(0, withItself - shared) + priorSize_ppm ** -2;
    const size = (faded * withClean) / information;
    const k = places - 1 - i;
    onset_dbar[k] = at[i]! - gap / 2;
    prior[k] = whole > 0 ? gap / whole : 0;
    ppm[k] = size;
    standardDeviation_ppm[k] = 1 / Math.sqrt(information);
    const evidence =
      Math.LN2 + 0.5 * size * size * information - 0.5 * Math.log(information * priorSize_ppm ** 2);
    if (evidence > most) most = evidence;
    // What is next to nothing beside the most probable place stays so, whatever its sign.
    const sign = evidence < most - beside ? 0 : normalLogCdf(-size * Math.sqrt(information));
    log[k] = evidence + sign;
  }
  return { recovery_dbar, onset_dbar, prior, log, ppm, standardDeviation_ppm };
}
