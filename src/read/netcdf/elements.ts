// Index in a variable of the value for a scan of a profile.
import type { NetcdfVariable } from "./netcdfFile.js";
import type { Geometry } from "./profiles.js";

/**
 * @returns a function from a scan, numbered as in `geometry.scans`, to the index in the variable; NaN if the variable has
 *   no value for it
 */
export function elementOf(
  { dimensions, shape }: NetcdfVariable,
  { sampleDimension, instanceDimension }: Pick<Geometry, "sampleDimension" | "instanceDimension">,
  profile: number,
): (scan: number) => number {
  let base = 0;
  let step = 0;
  let stride = 1;
  for (let k = dimensions.length - 1; k >= 0; k--) {
    const dimension = dimensions[k]!;
    if (dimension === sampleDimension) step = stride;
    else if (dimension === instanceDimension) base += profile * stride;
    else if (shape[k] !== 1) return () => Number.NaN;
    stride *= shape[k]!;
  }
  return (scan) => base + scan * step;
}
