// Impossible readings (fill values, zeros in the water, values that no sea has) are taken as missing. Readings near zero of
// a cell in air stay, because they show its zero.
import type { CastColumns, CellColumns } from "./cast.js";
import { airEnds_dbar } from "./wetScans.js";

/** Judgement: wider than any sea, so that values outside are no readings; a package is shallower than 12,000 dbar. */
const limits = {
  pressure: { lowest: -20, highest: 12_000 },
  temperature: { lowest: -5, highest: 60 },
  conductivity: { lowest: -0.5, highest: 110 },
} as const;
/** Whether a sea pressure is possible, dbar; false without a reading. */
export function isPressure(value: number): boolean {
  return value >= limits.pressure.lowest && value <= limits.pressure.highest;
}

/** Whether these readings of a thermometer and a cell are possible in water. */
export function isInWater(reading: {
  readonly temperature_C: number;
  readonly conductivity_mS_cm: number;
}): boolean {
  const { temperature_C: t, conductivity_mS_cm: c } = reading;
  const { lowest: coldest, highest: warmest } = limits.temperature;
  const missing = Number.isNaN(t) || Number.isNaN(c);
  const inWater = c >= leastInWater_mS_cm && c <= limits.conductivity.highest;
  return missing || (t >= coldest && t <= warmest && inWater && !(t !== 0 && Math.abs(t) < least));
}

/** The freshest water for a package has ten times this, mS/cm; a lower reading is not in water. */
const leastInWater_mS_cm = 0.01;
/** Fill values such as -9.99e-29 are practically zero; no sensor resolves this. */
const least = 1e-20;

/** Readings taken as missing, by column: their number and the first of them. */
interface RemovedReadings {
  readonly column: string;
  readonly count: number;
  readonly first: number;
  readonly scan: number;
}

/** @returns the columns, as copies with NaN for impossible readings where needed, and the removed readings */
export function removeImpossible(columns: CastColumns): {
  readonly columns: CastColumns;
  readonly removed: readonly RemovedReadings[];
} {
  const removed: RemovedReadings[] = [];
  const { pressure_dbar, primary, secondary } = columns;
  const pressure = removeFrom("pressure_dbar", pressure_dbar, limits.pressure, removed);
  const cell = (of: CellColumns, suffix: "" | "2"): CellColumns => {
    const temperature_C = removeFrom(
      `temperature${suffix}_C`,
      of.temperature_C,
      limits.temperature,
      removed,
    );
    const conductivity_mS_cm = removeFrom(
      `conductivity${suffix}_mS_cm`,
      of.conductivity_mS_cm,
      limits.conductivity,
      removed,
      pressure,
    );
    return temperature_C === of.temperature_C && conductivity_mS_cm === of.conductivity_mS_cm
      ? of
      : { temperature_C, conductivity_mS_cm };
  };
  const first = cell(primary, "");
  const second = secondary === undefined ? undefined : cell(secondary, "2");
  if (removed.length === 0) return { columns, removed };
  return {
    columns: {
      ...columns,
      pressure_dbar: pressure,
      primary: first,
      ...(second === undefined ? {} : { secondary: second }),
    },
    removed,
  };
}

/** A note on them, in plain words. */
export function removedNotes(removed: readonly RemovedReadings[]): readonly string[] {
  return removed.map(
    ({ column, count, first, scan }) =>
      `${column}: ${count} ${count === 1 ? "reading" : "readings"} that no sensor can give, taken as missing (first: ${first} in scan ${scan + 1})`,
  );
}

/** @param water sea pressure by scan, dbar: in water a reading near zero is impossible too */
function removeFrom(
  column: string,
  values: Float64Array,
  { lowest, highest }: { readonly lowest: number; readonly highest: number },
  removed: RemovedReadings[],
  water?: Float64Array,
): Float64Array {
  let count = 0;
  let scan = -1;
  let copy = values;
  // Nearly every reading lies here, at any pressure.
  const sure = water === undefined ? least : leastInWater_mS_cm;
  for (let i = allWithin(values, sure, highest); i < values.length; i++) {
    const value = values[i]!;
    if ((value >= sure && value <= highest) || Number.isNaN(value)) continue;
    const size = Math.abs(value);
    const no =
      value < lowest ||
      value > highest ||
      (size < least && value !== 0) ||
      (water !== undefined && value < leastInWater_mS_cm && water[i]! > airEnds_dbar);
    if (!no) continue;
    if (count === 0) {
      copy = values.slice();
      scan = i;
    }
    copy[i] = Number.NaN;
    count++;
  }
  if (count > 0) removed.push({ column, count, first: values[scan]!, scan });
  return copy;
}

/** How many readings from the first on lie there. */
function allWithin(values: Float64Array, least: number, most: number): number {
  let count = 0;
  while (count < values.length && values[count]! >= least && values[count]! <= most) count++;
  return count;
}
