// What films would explain of each cell of a cast, from all that its scans say: the legs of the cell, and the pair.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import { type ComparedLegs, compareLegs } from "../legs/compareLegs.js";
import { type FilmsOnPath, filmsOnPath } from "./filmsOnPath.js";
import { legRows } from "./legRows.js";
import { pairRows } from "./pairRows.js";

export type CellsOnPath = Readonly<Partial<Record<CellName, FilmsOnPath>>>;

/**
 * @param compared precomputed by `compareLegs`, optional
 * @param thin     precomputed by `thinLayers`, optional
 * @returns nothing of a cell without readings, and of a cast of one leg
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
    // What makes the secondary cell read fresh makes the primary less the secondary greater.
    const both =
      pair && cell === "secondary" ? { ...pair, value_ppm: pair.value_ppm.map((v) => -v) } : pair;
    const films = filmsOnPath(both === undefined ? [own] : [own, both], deepest_dbar);
    cells[cell] =
      legs.clock.from === "pressure" ? films : { ...films, rate_dbar_s: legs.clock.rate_dbar_s };
  }
  return cells;
}
