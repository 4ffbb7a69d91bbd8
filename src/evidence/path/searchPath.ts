// Search for a film that came at some place of the path and faded over some distance, or stayed. The evidence of all places
// and distances is computed at once. Other effects in the readings are linear terms with normal priors, so that every
// evidence has a closed form. Sums over the readings after a place are accumulated along the path, so that the cost is only
// places times distances.
import { logSum } from "../../statistics/logSum.js";
import { normalLogCdf } from "../../statistics/normal.js";
import { priorStep_ppm } from "../legs/stepThresholds.js";
import type { CleanRows } from "./withoutBackground.js";

/** If the log evidence is this much below the best, the sign of the film is not computed (exp(-30) is 1e-13; judgement). */
const beside = 30;

/**
 * A film must come at least this far from both ends of the path, dbar, or this share of it (judgement). Near the surface bubbles
 * make one cell read low, a pump starts late, and too few readings remain to tell these from a film.
 */
const edge_dbar = 30;
const edgeShare = 1 / 100;

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

/** @returns the search for films that fade over one distance, dbar; infinite for lasting films */
export function searchPath(rows: readonly CleanRows[]): (recovery_dbar: number) => PathSearch {
  const path = alongPath(rows);
  return (recovery_dbar) => searchOne(path, recovery_dbar);
}

/** Readings in order of the path, the last first. */
interface Path {
  readonly at: Float64Array;
  /** Weight of the row, with the sign of the reading in the row. */
  readonly signed: Float64Array;
  /** Path from here to the later reading of the same row, dbar; NaN if there is none. */
  readonly partner: Float64Array;
  readonly clean: Float64Array;
  /** Background terms of each reading side by side, `terms` for each reading. */
  readonly unit: Float64Array;
  readonly terms: number;
  /** Places at which a film may have come, each between two readings, and the share of the path that each represents. */
  readonly onset_dbar: Float64Array;
  readonly prior: Float64Array;
}

function alongPath(sources: readonly CleanRows[]): Path {
  const readings = sources.flatMap(({ less_dbar, at_dbar, ...source }, number) => {
    const first = { ...source, number, sign: 1, here: at_dbar, there: less_dbar };
    return less_dbar === undefined
      ? [first]
      : [first, { ...first, sign: -1, here: less_dbar, there: at_dbar }];
  });
  const most = readings.reduce((sum, { here }) => sum + here.length, 0);
  // Position of each reading in the list of columns above, and in its column.
  const column = new Uint8Array(most);
  const row = new Uint32Array(most);
  const place = new Float64Array(most);
  let count = 0;
  for (const [k, { here, weight }] of readings.entries()) {
    for (let i = 0; i < here.length; i++) {
      if (!(weight[i]! > 0)) continue;
      column[count] = k;
      row[count] = i;
      place[count++] = here[i]!;
    }
  }
  const order = Uint32Array.from(place.subarray(0, count).keys()).sort(
    (a, b) => place[b]! - place[a]!,
  );
  const starts = sources.map((_, k) => termsOf(sources.slice(0, k)));
  const terms = termsOf(sources);
  const places = Math.max(0, count - 1);
  const path = {
    onset_dbar: new Float64Array(places),
    prior: new Float64Array(places),
    at: new Float64Array(count),
    signed: new Float64Array(count),
    partner: new Float64Array(count).fill(Number.NaN),
    clean: new Float64Array(count),
    unit: new Float64Array(count * terms),
    terms,
  };
  for (let k = 0; k < count; k++) {
    const { number, sign, weight, clean, unit, there } = readings[column[order[k]!]!]!;
    const i = row[order[k]!]!;
    const at = place[order[k]!]!;
    path.at[k] = at;
    path.signed[k] = sign * weight[i]!;
    path.clean[k] = clean[i]!;
    // Of two readings at one place the positive one comes first.
    const away = there === undefined ? Number.NaN : there[i]! - at;
    if (away > 0 || (away === 0 && sign < 0)) path.partner[k] = away;
    const own = k * terms + starts[number]!;
    for (let j = 0; j < unit.length; j++) path.unit[own + j] = unit[j]![i]!;
  }
  const whole = count > 0 ? path.at[0]! - path.at[count - 1]! : 0;
  const edge = Math.min(edge_dbar, edgeShare * whole);
  for (let i = 0; i < places; i++) {
    const gap = path.at[i]! - path.at[i + 1]!;
    const k = places - 1 - i;
    path.onset_dbar[k] = path.at[i]! - gap / 2;
    const fromEnd = Math.min(path.at[0]! - path.at[i + 1]!, path.at[i]! - path.at[count - 1]!);
    path.prior[k] = whole > 0 && fromEnd > edge ? gap / (whole - 2 * edge) : 0;
  }
  return path;
}

function termsOf(sources: readonly CleanRows[]): number {
  return sources.reduce((sum, { unit }) => sum + unit.length, 0);
}

function searchOne(
  { at, signed, partner, clean, unit, terms, onset_dbar, prior }: Path,
  recovery_dbar: number,
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
    const evidence =
      Math.LN2 + 0.5 * size * size * information - 0.5 * Math.log(information * priorStep_ppm ** 2);
    if (evidence > most) most = evidence;
    const sign = evidence < most - beside ? 0 : normalLogCdf(-size * Math.sqrt(information));
    log[k] = evidence + sign;
  }
  const logOfAll = logSum(log, prior);
  return { recovery_dbar, onset_dbar, prior, log, ppm, standardDeviation_ppm, logOfAll };
}
