// Search for something that came into a cell at one place of the path and left it at another, all at once. The evidence of every
// pair of places has a closed form, from sums over the readings before each place.
import { logSum } from "../../statistics/logSum.js";
import { normalLogCdf } from "../../statistics/normal.js";
import { priorStep_ppm } from "../legs/stepThresholds.js";
import type { Path } from "./alongPath.js";

/** The most probable film that came and left at once. */
export interface BoxSearch {
  /** Path at which it came and at which it left, dbar. */
  readonly onset_dbar: number;
  readonly left_dbar: number;
  /** Its size, ppm. */
  readonly ppm: number;
  readonly standardDeviation_ppm: number;
  /** Natural logarithm of the evidence ratio against no film, over the places near the best. */
  readonly logOfAll: number;
}

/** First all pairs of this many places are tried, then all places near the best pair (speed). */
const coarsePlaces = 100;

interface Box {
  readonly onset: number;
  readonly left: number;
  readonly ppm: number;
  readonly standardDeviation_ppm: number;
  readonly log: number;
}

/** @returns undefined if the path is too short */
export function searchBox(path: Path): BoxSearch | undefined {
  const boxes = boxesOf(path);
  const places = path.onset_dbar.length;
  const step = Math.ceil(places / coarsePlaces);
  const coarse = range(0, places - 1, step);
  const best = bestOf(boxes(coarse, coarse));
  if (best === undefined) return undefined;
  const near = (place: number) => range(place - step, place + step, 1, places);
  const fine = boxes(near(best.onset), near(best.left));
  const { onset, left, ppm, standardDeviation_ppm } = bestOf(fine)!;
  const { onset_dbar, prior } = path;
  return {
    onset_dbar: onset_dbar[onset]!,
    left_dbar: onset_dbar[left]!,
    ppm,
    standardDeviation_ppm,
    // It left after it came, so each pair of places counts twice.
    logOfAll: logSum(
      fine.map(({ log }) => log),
      fine.map((box) => 2 * prior[box.onset]! * prior[box.left]!),
    ),
  };
}

/** Whole numbers from the first to the last in steps, without those that are no places. */
function range(first: number, last: number, step: number, places = last + 1): readonly number[] {
  const from = Math.max(0, first);
  const count = Math.floor((Math.min(places - 1, last) - from) / step) + 1;
  return Array.from({ length: Math.max(0, count) }, (_, k) => from + k * step);
}

function bestOf(boxes: readonly Box[]): Box | undefined {
  return boxes.reduce<Box | undefined>(
    (best, box) => (best === undefined || box.log > best.log ? box : best),
    undefined,
  );
}

/** @returns the boxes that came at one of some places and left at one of others, both rising */
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
        if (b <= a || prior[a] === 0 || prior[b] === 0) continue;
        for (; next < rows.length && rows[next]!.second < onset_dbar[b]!; next++) {
          if (rows[next]!.first > onset_dbar[a]!) unseen += rows[next]!.weight;
        }
        let shared = 0;
        for (let j = 0; j < terms; j++) {
          shared += (common[b * terms + j]! - common[a * terms + j]!) ** 2;
        }
        const own = withItself[b]! - withItself[a]! - 2 * unseen - shared;
        const information = Math.max(0, own) + priorStep_ppm ** -2;
        const ppm = (withClean[b]! - withClean[a]!) / information;
        const log =
          Math.LN2 +
          0.5 * ppm * ppm * information -
          0.5 * Math.log(information * priorStep_ppm ** 2) +
          normalLogCdf(-ppm * Math.sqrt(information));
        found.push({
          onset: a,
          left: b,
          ppm,
          standardDeviation_ppm: 1 / Math.sqrt(information),
          log,
        });
      }
      return found;
    });
}
