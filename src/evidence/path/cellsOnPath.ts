// Films of each cell of a cast as explanations of all its scans: the legs of the cell, and the pair.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import { type ComparedLegs, compareLegs } from "../legs/compareLegs.js";
import { type FilmsOnPath, filmsOnPath } from "./filmsOnPath.js";
import { legRows } from "./legRows.js";
import { pairRows } from "./pairRows.js";
import type { PathRows } from "./pathRows.js";

export type CellsOnPath = Readonly<Partial<Record<CellName, FilmsOnPath>>>;

/**
 * What films along the path of a cast would explain, for each cell.
 * @param compared precomputed by `compareLegs`, optional
 * @param thin     precomputed by `thinLayers`, optional
 * @returns no entry for a cell without readings. A cast with a single leg has only the pair; with one cell it has no entries
 */
export function cellsOnPath(
  cast: Cast,
  legs: Legs,
  compared: Readonly<Partial<Record<CellName, ComparedLegs>>> = {},
  thin = thinLayers(cast, legs),
): CellsOnPath {
  const { deepest_dbar } = thin;
  if (!(deepest_dbar > 0)) return {};
  const hasBothLegs = legs.down.length > 0 && legs.up.length > 0;
  const pair = pairRows(cast, legs, thin);
  const cells: Partial<Record<CellName, FilmsOnPath>> = {};
  for (const cell of ["primary", "secondary"] as const) {
    if (cast.columns[cell] === undefined) continue;
    const rows: PathRows[] = [];
    if (hasBothLegs) {
      const { matched, found } = compared[cell] ?? compareLegs(cast, legs, cell, thin);
      rows.push(legRows(matched, found, deepest_dbar));
    }
    // A film that makes the secondary cell read fresh increases primary minus secondary.
    const sign = cell === "primary" ? 1 : -1;
    if (pair) rows.push({ ...pair, value_ppm: pair.value_ppm.map((value) => sign * value) });
    if (rows.length > 0) cells[cell] = filmsOnPath(rows, deepest_dbar);
  }
  return cells;
}
