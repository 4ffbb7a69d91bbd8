// A fingerprint of the scans of a cast, to recognise them after they are discarded.
import type { Cast } from "../../cast/cast.js";

/**
 * The number of scans, and the sums of pressures, temperatures and conductivities to the last digit; undefined without
 * readings.
 */
export function fingerprintOf({ columns }: Cast): string | undefined {
  const { pressure_dbar, primary } = columns;
  const sums = [pressure_dbar, primary.temperature_C, primary.conductivity_mS_cm].map(sumOf);
  return sums.every((sum) => sum === 0) ? undefined : [pressure_dbar.length, ...sums].join(" ");
}

function sumOf(column: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < column.length; i++) if (Number.isFinite(column[i]!)) sum += column[i]!;
  return sum;
}
