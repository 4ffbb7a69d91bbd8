// A smooth curve against pressure as a sum of terms: straight lines between knots.
import type { BackgroundColumn } from "./pathRows.js";

/**
 * @param pressure_dbar one for each row
 * @param knots number of knots, evenly spaced from the surface to the deepest pressure
 * @param standardDeviation of the curve at each knot
 */
export function smoothProfile(
  pressure_dbar: Float64Array,
  deepest_dbar: number,
  knots: number,
  standardDeviation: number,
): readonly BackgroundColumn[] {
  return Array.from({ length: knots }, (_, knot) => {
    const column = new Float64Array(pressure_dbar.length);
    for (let i = 0; i < column.length; i++) {
      const at = (pressure_dbar[i]! / deepest_dbar) * (knots - 1);
      column[i] = Math.max(0, 1 - Math.abs(at - knot));
    }
    return { column, standardDeviation };
  });
}
