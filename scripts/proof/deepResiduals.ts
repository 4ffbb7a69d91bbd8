// Deep bottles of open cruises against a cell, by the plain arithmetic of PSS-78.
import type { Bottle } from "../../src/cast/bottle.js";
import type { CellName } from "../../src/cast/cast.js";
import { closureReading } from "../../src/evidence/bottles/closureReadings.js";
import type { WaterRead } from "../../src/model/designRow.js";
import { cFromSp } from "../../src/seawater/index.js";

/** Usual fits use the bottles from here down, because gradients disturb those above. */
export const deep_dbar = 500;

export interface Residual {
  readonly cast: string;
  readonly pressure: number;
  readonly water: WaterRead;
  /** ln of the CTD's over the bottle's conductivity, ppm. */
  readonly value: number;
}

/** Not flagged questionable or bad, and measured. */
export function isGood({ flag, bottleFlag, salinity }: Bottle): boolean {
  const bad = [3, 4].includes(flag ?? 2) || [3, 4].includes(bottleFlag ?? 2);
  return !bad && Number.isFinite(salinity);
}

/** Of one cell beside bottles, in their order. */
export function residualsOf(bottles: readonly Bottle[], cell: CellName): readonly Residual[] {
  return bottles.flatMap((bottle) => {
    const reading = closureReading(bottle, cell, undefined);
    if (reading === undefined) return [];
    const reference = cFromSp(bottle.salinity, reading.temperature_C, bottle.pressure_dbar);
    const value = 1e6 * Math.log(reading.conductivity_mS_cm / reference);
    return Number.isFinite(value)
      ? [{ cast: bottle.cast, pressure: bottle.pressure_dbar, water: reading, value }]
      : [];
  });
}
