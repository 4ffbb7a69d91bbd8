// Merge bottles that are given again, such as laboratory values of bottles that were listed with their cast.
import { group } from "d3-array";
import type { Bottle } from "../../cast/bottle.js";
import { castFinder } from "../../read/castIds.js";

/**
 * A bottle with the cast and label of a known one updates that one. Properties that are absent keep their value, including the
 * salinity. If several bottles share a label, the later ones replace the known ones. All others are new.
 * @param ids of the casts; a bottle may have the id of its cast in another form
 */
export function mergedBottles(
  known: readonly Bottle[],
  given: readonly Bottle[],
  ids: readonly string[],
): readonly Bottle[] {
  // The check of the data refuses anything that is not a list of bottles.
  if (!Array.isArray(given) || !given.every(isObject)) return [...known, ...given];
  if (given.length === 0) return known;
  const find = castFinder(ids);
  const found = new Map<string, string>();
  const keyOf = ({ cast, bottle }: Bottle) => {
    if (!found.has(cast)) found.set(cast, find(cast) ?? cast);
    return JSON.stringify([found.get(cast), bottle]);
  };
  const late = group(given, keyOf);
  const listed = new Set<string>();
  const again = known.flatMap((bottle): readonly Bottle[] => {
    const key = keyOf(bottle);
    const own = late.get(key);
    if (own === undefined) return [bottle];
    const isFirst = !listed.has(key);
    listed.add(key);
    return isFirst ? (own.length === 1 ? [completed(bottle, own[0]!)] : own) : [];
  });
  return [...again, ...given.filter((bottle) => !listed.has(keyOf(bottle)))];
}

function completed(known: Bottle, late: Bottle): Bottle {
  const { pressure_dbar } = Number.isNaN(late.pressure_dbar) ? known : late;
  return { ...known, ...late, pressure_dbar };
}

function isObject(bottle: unknown): boolean {
  return typeof bottle === "object" && bottle !== null;
}
