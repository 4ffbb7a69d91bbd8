// Films of each cell of a cast as explanations of all its scans: the legs of the cell, and the pair.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import { type ComparedLegs, compareLegs } from "../legs/compareLegs.js";
import { type FilmsOnPath, filmsOnPath } from "./filmsOnPath.js";
import { legRows } from "./legRows.js";
import { pairRows } from "./pairRows.js";

export type CellsOnPath = Readonly<Partial<Record<CellName, FilmsOnPath>>>;

/**
 * What films along the path of a cast would explain, for each cell.
 * @param compared precomputed by `compareLegs`, optional
 * @param thin     precomputed by `thinLayers`, optional
 * @returns no entry for a cell without readings; none at all for a cast with a single leg
 */
export function cellsOnPath(
  cast: Cast,
  legs: Legs,
  compared: Readonly<Partial<Record<CellName, ComparedLegs>>> = {},
  thin = thinLayers(cast, legs),
): CellsOnPath {
  if (legs.down.length === 0 || legs.up.length === 0) return {};
  const { deepest_dbar } = thin;
  if (!(deepest_dbar > 0)) return {};
  const pair = pairRows(cast, legs, thin);
  const cells: Partial<Record<CellName, FilmsOnPath>> = {};
  for (const cell of ["primary", "secondary"] as const) {
    if (cast.columns[cell] === undefined) continue;
    const { matched, found } = compared[cell] ?? compareLegs(cast, legs, cell, thin);
    const own = legRows(matched, found, deepest_dbar);
    // A film that makes the secondary cell read fresh increases primary minus secondary.
    const both =
      pair && cell === "secondary" ? { ...pair, value_ppm: pair.value_ppm.map((v) => -v) } : pair;
    cells[cell] = filmsOnPath(both === undefined ? [own] : [own, both], deepest_dbar);
  }
  return cells;
}
