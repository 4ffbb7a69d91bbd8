// The scan results for each bottle of a cast, stored after the scans are discarded: laboratory salinities come days later.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import type { Closure } from "./closure.js";
import { type ClosureReader, type ClosureSettings, closureReader } from "./closureReadings.js";
import { salinityGradients } from "./salinityGradients.js";

/** The values of a bottle that its reading depends on: all but the laboratory results. */
type ReadBy = Pick<Bottle, "bottle" | "pressure_dbar" | "time_s" | "closureTime" | "ctd">;

/** One bottle, whatever its salinity. */
interface ClosureRead {
  readonly bottle: ReadBy;
  readonly closures: Readonly<Partial<Record<CellName, Closure>>>;
  /** The reason why its time contradicts its pressure; absent if it does not. */
  readonly contradiction?: string;
  /** dSP/dp there, per dbar. */
  readonly gradient: number;
}

/** All bottles of a cast, in order: all of them decided whether its times can be trusted. */
export interface ClosureReadings {
  readonly bottles: readonly ClosureRead[];
  readonly notes: readonly string[];
}

/** Equal for two bottles whose readings depend on the same values. */
function closureKey({ bottle, pressure_dbar, time_s, closureTime, ctd }: ReadBy): string {
  return JSON.stringify([bottle, String(pressure_dbar), time_s, closureTime, ctd]);
}

export function readClosures(
  bottles: readonly Bottle[],
  cells: readonly CellName[],
  cast: Cast,
  thin: ThinLayers,
  settings: ClosureSettings,
): ClosureReadings {
  const gradients = salinityGradients(bottles, cells, thin);
  const { of, contradiction, notes } = closureReader(cast, bottles, settings);
  const read = bottles.map((bottle, i): ClosureRead => {
    const closures: Partial<Record<CellName, Closure>> = {};
    for (const cell of ["primary", "secondary"] as const) {
      const closure = of(bottle, cell);
      if (closure !== undefined) closures[cell] = closure;
    }
    const against = contradiction(bottle);
    return {
      bottle: readBy(bottle),
      closures,
      ...(against === undefined ? {} : { contradiction: against }),
      gradient: gradients[i]!,
    };
  });
  return { bottles: read, notes };
}

function readBy({ bottle, pressure_dbar, time_s, closureTime, ctd }: Bottle): ReadBy {
  return {
    bottle,
    pressure_dbar,
    ...(time_s === undefined ? {} : { time_s }),
    ...(closureTime === undefined ? {} : { closureTime }),
    ...(ctd === undefined ? {} : { ctd }),
  };
}

/** Whether these are the bottles that were read, in the same order. */
export function closuresAreOf(
  { bottles: read }: ClosureReadings,
  bottles: readonly Bottle[],
): boolean {
  return (
    read.length === bottles.length &&
    read.every(({ bottle }, i) => closureKey(bottle) === closureKey(bottles[i]!))
  );
}

/**
 * @param read undefined if the cast has no scans
 * @throws RangeError if a bottle was not read
 */
export function closuresFromStored(
  read: ClosureReadings | undefined,
  bottles: readonly Bottle[],
  cells: readonly CellName[],
): { readonly reader: ClosureReader; readonly gradients: readonly number[] } {
  if (read === undefined) {
    const gradients = salinityGradients(bottles, cells, undefined);
    return { reader: closureReader(undefined, bottles), gradients };
  }
  const byKey = new Map(read.bottles.map((own) => [closureKey(own.bottle), own]));
  const own = (bottle: Bottle) => {
    const found = byKey.get(closureKey(bottle));
    if (found === undefined)
      throw new RangeError(`bottle ${bottle.bottle} of cast ${bottle.cast} was not read with it`);
    return found;
  };
  return {
    reader: {
      of: (bottle, cell) => own(bottle).closures[cell],
      contradiction: (bottle) => own(bottle).contradiction,
      notes: read.notes,
    },
    gradients: bottles.map((bottle) => own(bottle).gradient),
  };
}
