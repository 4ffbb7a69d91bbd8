import { PRESSURE_UNIT, SALINITY_UNIT, TEMPERATURE_UNIT } from "../coefficientsGibbsSeawater.js";
import { SALINITY_OFFSET, v } from "../coefficientsSpecificVolume.js";
import {
  type Formula,
  input,
  minus,
  over,
  plus,
  polynomial,
  squareRoot,
  times,
} from "./formula.js";
import { type Kernel, kernelOf } from "./kernel.js";

let density: Kernel | undefined | null = null;
let anomaly: Kernel | undefined | null = null;

/** In-situ density of the columns sa, ct, p. */
export function rhoKernel(): Kernel | undefined {
  if (density === null) density = kernelOf(over(1, specificVolume(v, input(2))), 3);
  return density;
}

/** Potential density anomaly of the columns sa, ct. */
export function sigma0Kernel(): Kernel | undefined {
  if (anomaly === null) anomaly = kernelOf(minus(over(1, specificVolume(v.slice(0, 1))), 1000), 2);
  return anomaly;
}

function specificVolume(blocks: readonly (readonly (readonly number[])[])[], p?: Formula): Formula {
  const [sa, ct] = [input(0), input(1)];
  // The root of sa times 0 is NaN for a negative salinity.
  const x = squareRoot(times(plus(sa, SALINITY_OFFSET), 1 / SALINITY_UNIT));
  const y = times(ct, 1 / TEMPERATURE_UNIT);
  const inPressure = blocks.map((rows) =>
    polynomial(
      y,
      rows.map((row) => polynomial(x, row)),
    ),
  );
  const volume =
    p === undefined ? inPressure[0]! : polynomial(times(p, 1 / PRESSURE_UNIT), inPressure);
  return plus(volume, times(0, squareRoot(sa)));
}
