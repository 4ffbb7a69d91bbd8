// A smooth course with pressure as a sum of terms: straight lines between knots.
import type { BackgroundColumn } from "./pathRows.js";

/**
 * @param pressure_dbar one a row
 * @param knots evenly from the surface to the deepest
 * @param standardDeviation of the course at each knot
 */
export function smoothCourse(
  pressure_dbar: Float64Array,
  deepest_dbar: number,
  knots: number,
  standardDeviation: number,
): readonly BackgroundColumn[] {
  return Array.from({ length: knots }, (_, knot) => ({
    column: pressure_dbar.map((p) =>
      Math.max(0, 1 - Math.abs((p / deepest_dbar) * (knots - 1) - knot)),
    ),
    standardDeviation,
  }));
}
