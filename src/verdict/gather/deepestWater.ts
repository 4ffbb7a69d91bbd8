// The water in which a cast's salinity errors are told: the deepest it read.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellColumns, CellName } from "../../cast/cast.js";
import { closureReading } from "../../evidence/bottles/closureReadings.js";
import type { Water } from "../../model/salinityError.js";
import { spFromC } from "../../seawater/index.js";

/** The water of the deepest scan or closure that was read; undefined where none was. */
export function deepestWater(
  cells: readonly CellName[],
  data: Cast | undefined,
  bottles: readonly Bottle[],
): Water | undefined {
  const cell = cells[0];
  if (cell === undefined) return undefined;
  let deepest = {
    pressure_dbar: Number.NEGATIVE_INFINITY,
    temperature_C: 0,
    conductivity_mS_cm: 0,
  };
  const columns = data?.columns[cell];
  const pressure = data?.columns.pressure_dbar;
  if (columns !== undefined && pressure !== undefined) {
    const scan = deepestRead(pressure, columns);
    if (scan >= 0) {
      deepest = {
        pressure_dbar: pressure[scan]!,
        temperature_C: columns.temperature_C[scan]!,
        conductivity_mS_cm: columns.conductivity_mS_cm[scan]!,
      };
    }
  }
  for (const bottle of bottles) {
    const reading = closureReading(bottle, cell, undefined);
    if (reading !== undefined && bottle.pressure_dbar > deepest.pressure_dbar) {
      deepest = reading;
    }
  }
  const { pressure_dbar, temperature_C, conductivity_mS_cm } = deepest;
  const salinity = spFromC(conductivity_mS_cm, temperature_C, pressure_dbar);
  return salinity > 0 ? { pressure_dbar, temperature_C, salinity } : undefined;
}

/** The deepest scan with readings of sea water, -1 where there is none. */
function deepestRead(
  pressure: Float64Array,
  { temperature_C, conductivity_mS_cm }: CellColumns,
): number {
  let deepest = -1;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < pressure.length; i++) {
    if (!(pressure[i]! > greatest)) continue;
    // No sea water is colder (judgement: some degrees below its freezing point).
    if (!(temperature_C[i]! > -5 && conductivity_mS_cm[i]! > 0)) continue;
    greatest = pressure[i]!;
    deepest = i;
  }
  return deepest;
}
