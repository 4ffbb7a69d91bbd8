// The deepest water of a cast, in which its salinity errors are expressed.
import type { Bottle, ClosureReading } from "../../cast/bottle.js";
import type { Cast, CellColumns, CellName } from "../../cast/cast.js";
import { closureReading } from "../../evidence/bottles/closureReadings.js";
import type { Water } from "../../model/salinityError.js";
import { spFromC } from "../../seawater/index.js";

/** The reading of one cell at one place. */
export interface PlacedReading extends ClosureReading {
  readonly pressure_dbar: number;
}

/** The deepest scan of a cell with readings of sea water; undefined if there is none. */
export function deepestScan({ columns }: Cast, cell: CellName): PlacedReading | undefined {
  const own = columns[cell];
  const scan = own === undefined ? -1 : deepestRead(columns.pressure_dbar, own);
  if (own === undefined || scan < 0) return undefined;
  return {
    pressure_dbar: columns.pressure_dbar[scan]!,
    temperature_C: own.temperature_C[scan]!,
    conductivity_mS_cm: own.conductivity_mS_cm[scan]!,
  };
}

/**
 * The water of the deepest scan or closure with readings; undefined without readings.
 * @param scan of the first cell, as from `deepestScan`
 */
export function deepestWater(
  cells: readonly CellName[],
  scan: PlacedReading | undefined,
  bottles: readonly Bottle[],
): Water | undefined {
  const cell = cells[0];
  if (cell === undefined) return undefined;
  let deepest: PlacedReading = scan ?? {
    pressure_dbar: Number.NEGATIVE_INFINITY,
    temperature_C: 0,
    conductivity_mS_cm: 0,
  };
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

/** Index of the deepest scan with readings of sea water; -1 if there is none. */
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
