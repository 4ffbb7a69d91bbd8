// The excursions of the cells of one cast, from all that the cast's scans say: the legs of each cell and the pair.
import type { Cast, CellName } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import { type ComparedLegs, compareLegs } from "./compareLegs.js";
import { type Excursion, excursionOf } from "./excursion.js";
import { legRows } from "./legRows.js";
import { pairRows } from "./pairRows.js";

/**
 * One for each cell that has readings on both legs, however improbable: `logBayesFactor` says.
 * @param compared what `compareLegs` gave for the cells, where it has been at it already
 */
export function excursionsOnCast(
  cast: Cast,
  legs: Legs,
  compared: Readonly<Partial<Record<CellName, ComparedLegs>>> = {},
): readonly Excursion[] {
  if (legs.down.length === 0 || legs.up.length === 0) return [];
  const deepest_dbar = deepestOf(cast, legs);
  return (["primary", "secondary"] as const).flatMap((cell) => {
    if (cast.columns[cell] === undefined) return [];
    const { matched, found } = compared[cell] ?? compareLegs(cast, legs, cell);
    const pair = pairRows(cast, legs, cell, deepest_dbar);
    const rows = [legRows(matched, found, deepest_dbar), ...(pair === undefined ? [] : [pair])];
    return excursionOf(cell, rows, deepest_dbar) ?? [];
  });
}

function deepestOf({ columns }: Cast, legs: Legs): number {
  let deepest = 0;
  for (const scans of [legs.down, legs.up]) {
    for (const scan of scans) deepest = Math.max(deepest, columns.pressure_dbar[scan]!);
  }
  return deepest;
}
