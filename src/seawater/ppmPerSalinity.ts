// ppm of conductivity per unit of salinity.
import { spFromCFirstDerivatives } from "./sensitivity.js";

/**
 * 1e6 / (C dSP/dC), of water with conductivity C mS/cm and temperature t degree C (ITS-90) at p dbar; about 25,000 in sea
 * water.
 */
export function ppmPerSalinity(
  conductivity_mS_cm: number,
  temperature_C: number,
  pressure_dbar: number,
): number {
  const { dSpDc } = spFromCFirstDerivatives(conductivity_mS_cm, temperature_C, pressure_dbar);
  return 1e6 / (conductivity_mS_cm * dSpDc);
}
