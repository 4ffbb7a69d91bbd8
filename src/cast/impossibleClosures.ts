// Impossible CTD readings at closure are taken as missing; the bottle stays.
import type { Bottle, ClosureReading } from "./bottle.js";
import type { CellName } from "./cast.js";
import { isInWater } from "./impossibleReadings.js";

/** @returns the bottles without such readings, and a note if there were any */
export function removeImpossibleClosures(bottles: readonly Bottle[]): {
  readonly bottles: readonly Bottle[];
  readonly notes: readonly string[];
} {
  const lost = bottles.flatMap(({ ctd }, i) =>
    ctd !== undefined && Object.values(ctd).some((reading) => !isInWater(reading)) ? [i] : [],
  );
  if (lost.length === 0) return { bottles, notes: [] };
  const without = [...bottles];
  for (const i of lost) {
    const { ctd, ...rest } = bottles[i]!;
    const kept: Partial<Record<CellName, ClosureReading>> = {};
    for (const cell of ["primary", "secondary"] as const) {
      const reading = ctd?.[cell];
      if (reading !== undefined && isInWater(reading)) kept[cell] = reading;
    }
    without[i] = Object.keys(kept).length === 0 ? rest : { ...rest, ctd: kept };
  }
  const { cast, bottle } = bottles[lost[0]!]!;
  const note = `${lost.length} closures have a CTD reading that no sensor can give, taken as missing (first: bottle ${bottle} of cast ${cast})`;
  return { bottles: without, notes: [note] };
}
