// The parts of a cruise, as read, put together: every part but the casts may be missing.
import type { Bottle } from "../cast/bottle.js";
import type { Cruise, CruiseCast, InputFile, Instrument, NextStation } from "../cast/cruise.js";
import { defaultTarget } from "../cast/cruise.js";
import type { MaintenanceEvent } from "../cast/maintenance.js";

/** What is at hand. */
export interface CruiseParts {
  readonly name: string;
  readonly note?: string | undefined;
  /** With their data where there is any. */
  readonly casts: readonly CruiseCast[];
  readonly bottles?: readonly Bottle[];
  /** Casts as the bottle file knows them. */
  readonly bottleCasts?: readonly CruiseCast[];
  readonly maintenance?: readonly MaintenanceEvent[];
  readonly instrument?: Instrument;
  readonly target?: number | undefined;
  readonly nextStation?: NextStation | undefined;
  readonly inputs: readonly InputFile[];
}

/** Casts in order of time where all times are known, else as listed, those known from bottles only behind. */
export function assembleCruise(parts: CruiseParts): Cruise {
  const known = new Map(parts.casts.map((cast) => [cast.id, cast]));
  for (const cast of parts.bottleCasts ?? []) {
    known.set(cast.id, { ...cast, ...known.get(cast.id) });
  }
  for (const { cast } of parts.bottles ?? []) if (!known.has(cast)) known.set(cast, { id: cast });
  const casts = [...known.values()];
  const timed = casts.every(({ start }) => start !== undefined);
  if (timed) casts.sort((a, b) => Date.parse(a.start!) - Date.parse(b.start!));
  return {
    name: parts.name,
    ...(parts.note === undefined ? {} : { note: parts.note }),
    casts,
    bottles: parts.bottles ?? [],
    maintenance: parts.maintenance ?? [],
    instrument: parts.instrument ?? {},
    target: parts.target ?? defaultTarget,
    ...(parts.nextStation === undefined ? {} : { nextStation: parts.nextStation }),
    inputs: parts.inputs,
  };
}
