// The effect of a gain error on Practical Salinity.
import { cFromSp, spFromC } from "../seawater/index.js";
import type { WaterRead } from "./designRow.js";

/** Water in which an error is expressed: ITS-90 degree C, dbar, PSS-78. */
export interface Water {
  readonly temperature_C: number;
  readonly pressure_dbar: number;
  readonly salinity: number;
}

/**
 * Standard water, in which gain errors are compared: SP 35, 15 degree C, 0 dbar, where the conductivity ratio is 1
 * by definition [UNESCO1983].
 */
export const standardWater: Water = { temperature_C: 15, pressure_dbar: 0, salinity: 35 };

/** The water as a cell without error reads it. */
export function waterRead({ pressure_dbar, temperature_C, salinity }: Water): WaterRead {
  const conductivity_mS_cm = cFromSp(salinity, temperature_C, pressure_dbar);
  return { pressure_dbar, temperature_C, conductivity_mS_cm };
}

/** Salinity read minus true, PSS-78, of a cell with a gain error of `ppm` in the given water. */
export function salinityError(ppm: number, water: Water = standardWater): number {
  const { temperature_C, pressure_dbar, salinity } = water;
  const conductivity = cFromSp(salinity, temperature_C, pressure_dbar);
  return spFromC(conductivity * (1 + ppm * 1e-6), temperature_C, pressure_dbar) - salinity;
}

/** The gain error that changes salinity by `error` in standard water, ppm. */
export function gainForSalinity(error: number): number {
  const { temperature_C, pressure_dbar, salinity } = standardWater;
  const clean = cFromSp(salinity, temperature_C, pressure_dbar);
  return 1e6 * (cFromSp(salinity + error, temperature_C, pressure_dbar) / clean - 1);
}
