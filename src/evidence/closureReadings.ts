// What the CTD read when a bottle closed: as written beside the bottle, or looked up on the cast's up leg.
import type { Bottle, ClosureReading } from "../cast/bottle.js";
import type { Cast, CellColumns, CellName } from "../cast/cast.js";
import { indexOfDeepest } from "../cast/indexOfDeepest.js";

/** Half-width of the pressure interval whose scans are averaged, dbar (common practice, no source). */
const halfWidth_dbar = 0.5;
/** A scan further than this from the closure pressure is of other water, dbar. */
const furthest_dbar = 5;

/**
 * The readings of one cell at the closure of a bottle.
 * @returns undefined where neither the bottle nor the cast tells
 */
export function closureReading(
  bottle: Bottle,
  cell: CellName,
  cast: Cast | undefined,
): ClosureReading | undefined {
  const written = bottle.ctd?.[cell];
  if (written !== undefined) return complete(written);
  const columns = cast?.columns[cell];
  if (cast === undefined || columns === undefined) return undefined;
  return complete(readUpLeg(bottle, cast.columns.pressure_dbar, columns));
}

function complete(reading: ClosureReading): ClosureReading | undefined {
  const { temperature_C, conductivity_mS_cm } = reading;
  return Number.isFinite(temperature_C) && conductivity_mS_cm > 0 && conductivity_mS_cm < Infinity
    ? reading
    : undefined;
}

function readUpLeg(
  bottle: Bottle,
  pressure: Float64Array,
  { temperature_C, conductivity_mS_cm }: CellColumns,
): ClosureReading {
  const turn = indexOfDeepest(pressure);
  let nearest = turn;
  let count = 0;
  let temperature = 0;
  let conductivity = 0;
  for (let i = turn; i < pressure.length; i++) {
    const distance = Math.abs(pressure[i]! - bottle.pressure_dbar);
    if (distance < Math.abs(pressure[nearest]! - bottle.pressure_dbar)) nearest = i;
    if (!(distance <= halfWidth_dbar && conductivity_mS_cm[i]! > 0 && temperature_C[i]! > -5)) {
      continue;
    }
    count++;
    temperature += temperature_C[i]!;
    conductivity += conductivity_mS_cm[i]!;
  }
  if (count > 0) {
    return { temperature_C: temperature / count, conductivity_mS_cm: conductivity / count };
  }
  const close = Math.abs(pressure[nearest]! - bottle.pressure_dbar) <= furthest_dbar;
  return {
    temperature_C: close ? temperature_C[nearest]! : Number.NaN,
    conductivity_mS_cm: close ? conductivity_mS_cm[nearest]! : Number.NaN,
  };
}
