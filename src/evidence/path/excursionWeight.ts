// How much of an excursion is left where the package passes a place.
import type { LegName } from "../../cast/cast.js";
import type { Excursion } from "./excursion.js";
import { pathAt } from "./pathRows.js";

/**
 * The gain at a place is this share of the excursion's size.
 * @returns 0 before it came, 1 as it came, then exp(-path / recovery)
 */
export function excursionWeight(
  {
    leg,
    onset_dbar,
    recovery_dbar,
    deepest_dbar,
  }: Pick<Excursion, "leg" | "onset_dbar" | "recovery_dbar" | "deepest_dbar">,
  at: LegName,
  pressure_dbar: number,
): number {
  const since =
    pathAt(at, pressure_dbar, deepest_dbar) - pathAt(leg, onset_dbar.value, deepest_dbar);
  return since < 0 ? 0 : Math.exp(-since / recovery_dbar.value);
}
