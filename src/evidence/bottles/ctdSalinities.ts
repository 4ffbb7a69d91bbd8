// Salinities of the CTD itself in the column of the laboratory. They agree with a cell better than a laboratory can, cast
// after cast, and contain no information on it.
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import { median } from "../../statistics/robustCentre.js";
import {
  fromItsScans,
  laboratoryBesideCtd,
  measuredSeries,
  type ReaderOf,
} from "./laboratoryBesideCtd.js";

/**
 * On this number of casts in a row, each with at least `fewest` samples, the median distance from one cell is less than
 * this, PSS-78 (judgement: about the error of the best laboratories, and few cells are so close to right. On the open cruises
 * with bottles, also where the CTD was adjusted to them, it is so on single casts only).
 */
const agrees = { fewest: 5, within: 0.000_35, casts: 3 };

/**
 * @param casts    in order of time
 * @param bottles  by cast id
 * @param readerOf the reader of a cast at its closures; from its scans if absent
 * @returns for each bottle with the salinity of a cell, the reason in plain words
 */
export function ctdSalinities(
  casts: readonly CruiseCast[],
  bottles: ReadonlyMap<string, readonly Bottle[]>,
  cells: readonly CellName[],
  readerOf: ReaderOf = fromItsScans,
): ReadonlyMap<Bottle, string> {
  const found = new Map<Bottle, string>();
  const all = measuredSeries(casts, bottles, agrees.fewest);
  for (const cell of cells) {
    const equal = all.map((series) => {
      const pairs = laboratoryBesideCtd(series, [cell], readerOf);
      return median(pairs.map(({ ctd, laboratory }) => Math.abs(laboratory - ctd))) < agrees.within;
    });
    for (let from = 0; from < equal.length; from++) {
      const end = equal.indexOf(false, from);
      const row = all.slice(from, end < 0 ? equal.length : end);
      from += row.length;
      if (row.length < agrees.casts) continue;
      const why = `copied from the ${cell} cell, not measured`;
      for (const bottle of row.flatMap((series) => series.bottles)) found.set(bottle, why);
    }
  }
  return found;
}
