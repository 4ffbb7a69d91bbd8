// Search for something that came into a cell at one place of the path and left it at another, all at once. The evidence of every
// pair of places has a closed form, from sums over the readings before each place.
import { logSum } from "../../statistics/logSum.js";
import { normalLogCdf } from "../../statistics/normal.js";
import { priorStep_ppm } from "../legs/stepThresholds.js";
import type { Path } from "./alongPath.js";
import { filmEvidence } from "./filmEvidence.js";
import { runningMoments, type Uncertain } from "./runningMoments.js";

/** The most probable film that came and left at once. */
export interface BoxSearch {
  /** Path at which it came, and distance after which it left, dbar. */
  readonly onset_dbar: Uncertain;
  readonly length_dbar: Uncertain;
  /** Its size, ppm. */
  readonly ppm: Uncertain;
  /** Natural logarithm of the evidence ratio against no film, over the places near the best. */
  readonly logOfAll: number;
}

/** First all pairs of this many places are tried, then all places near the best pair (speed). */
const coarsePlaces = 100;

interface Box {
  readonly onset: number;
  readonly left: number;
  readonly ppm: Uncertain;
  readonly log: number;
}

/** @returns undefined if the path is too short */
export function searchBox(path: Path): BoxSearch | undefined {
  const boxes = boxesOf(path);
  const places = path.onset_dbar.length;
  const step = Math.ceil(places / coarsePlaces);
  const coarse = range(0, coarsePlaces, step);
  const best = bestOf(boxes(coarse, coarse));
  if (best === undefined) return undefined;
  const near = (place: number) => range(place - step, 2 * step + 1, 1);
  const fine = boxes(near(best.onset), near(best.left));
  const { onset, left, ppm } = bestOf(fine)!;
  const { onset_dbar, prior } = path;
  // It left after it came, so each pair of places counts twice.
  const weights = fine.map((box) => 2 * prior[box.onset]! * prior[box.left]!);
  const logOfAll = logSum(
    fine.map(({ log }) => log),
    weights,
  );
  const [onsets, lengths] = [runningMoments(), runningMoments()];
  for (const [k, box] of fine.entries()) {
    const p = weights[k]! * Math.exp(box.log - logOfAll);
    onsets.add(p, onset_dbar[box.onset]!);
    lengths.add(p, onset_dbar[box.left]! - onset_dbar[box.onset]!);
  }
  const best_dbar = onset_dbar[onset]!;
  return {
    onset_dbar: { ...onsets.result(), value: best_dbar },
    length_dbar: { ...lengths.result(), value: onset_dbar[left]! - best_dbar },
    ppm,
    logOfAll,
  };
}

function range(first: number, count: number, step: number): readonly number[] {
  return Array.from({ length: count }, (_, k) => first + k * step);
}

function bestOf(boxes: readonly Box[]): Box | undefined {
  return [...boxes].sort((a, b) => b.log - a.log)[0];
}

/** @returns the boxes that came at one of some places and left at one of others, both rising; numbers that are no places are skipped */
function boxesOf(path: Path) {
  const { at, signed, partner, clean, unit, terms, onset_dbar, prior } = path;
  const places = onset_dbar.length;
  const last = places;
  // Sums over the readings before each place: reading last - k is the first after place k - 1.
  const withClean = new Float64Array(places);
  const withItself = new Float64Array(places);
  const common = new Float64Array(places * terms);
  for (let k = 0; k < places; k++) {
    const i = last - k;
    withClean[k] = (k > 0 ? withClean[k - 1]! : 0) + signed[i]! * clean[i]!;
    withItself[k] = (k > 0 ? withItself[k - 1]! : 0) + Math.abs(signed[i]!);
    for (let j = 0; j < terms; j++) {
      const before = k > 0 ? common[(k - 1) * terms + j]! : 0;
      common[k * terms + j] = before + signed[i]! * unit[i * terms + j]!;
    }
  }
  // Rows with two readings, by the later one: a film at both of them does not show.
  const rows = Array.from(at.keys())
    .filter((i) => partner[i]! >= 0)
    .map((i) => ({ first: at[i]!, second: at[i]! + partner[i]!, weight: Math.abs(signed[i]!) }))
    .sort((a, b) => a.second - b.second);
  return (onsets: readonly number[], lefts: readonly number[]): readonly Box[] =>
    onsets.flatMap((a) => {
      const found: Box[] = [];
      let next = 0;
      let unseen = 0;
      for (const b of lefts) {
        if (b <= a || !(prior[a]! > 0 && prior[b]! > 0)) continue;
        for (; next < rows.length && rows[next]!.second < onset_dbar[b]!; next++) {
          if (rows[next]!.first > onset_dbar[a]!) unseen += rows[next]!.weight;
        }
        let shared = 0;
        for (let j = 0; j < terms; j++) {
          shared += (common[b * terms + j]! - common[a * terms + j]!) ** 2;
        }
        const own = withItself[b]! - withItself[a]! - 2 * unseen - shared;
        const information = Math.max(0, own) + priorStep_ppm ** -2;
        const value = (withClean[b]! - withClean[a]!) / information;
        const root = Math.sqrt(information);
        const log = filmEvidence(value, information) + normalLogCdf(-value * root);
        found.push({ onset: a, left: b, ppm: { value, standardUncertainty: 1 / root }, log });
      }
      return found;
    });
}
