// The CTD reading at a bottle closure: as written beside the bottle, or from the scans of the cast at its closure.

import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import { type Legs, splitLegs } from "../../cast/splitLegs.js";
import type { CellLag } from "../../response/lag/lagPrior.js";
import type { Closure } from "./closure.js";
import { closureClock } from "./closureClock.js";
import { type ClosureScans, pressureAt, scansAtPressure } from "./closureScans.js";
import { readScans, withLag } from "./readScans.js";
import { type UpScans, upScans } from "./upScans.js";
import { areInMetres } from "./writtenInMetres.js";

/** Inputs beside the scans; every part may be absent. */
export interface ClosureSettings {
  /** As from `splitLegs`. */
  readonly legs?: Legs;
  /** Start of the cast, ISO 8601 UTC, if the cast itself has none: for bottles with a UTC time. */
  readonly start?: string;
  /** Thermal lag as fitted to each cell. */
  readonly lags?: Readonly<Partial<Record<CellName, CellLag>>>;
}

const metresNote =
  "the pressures written for the bottles are depths in metres. The CTD's pressure at closure is used instead";

export interface ClosureReader {
  /** Undefined without a value beside the bottle or in the cast. */
  readonly of: (bottle: Bottle, cell: CellName) => Closure | undefined;
  /** The reason why a bottle's time contradicts its pressure; undefined if it does not. */
  readonly contradiction: (bottle: Bottle) => string | undefined;
  readonly notes: readonly string[];
}

/** The reading of one cell at the closure of one bottle; undefined without a value beside the bottle or in the cast. */
export function closureReading(
  bottle: Bottle,
  cell: CellName,
  cast: Cast | undefined,
): Closure | undefined {
  return closureReader(cast, [bottle]).of(bottle, cell);
}

/** @param bottles of the cast: all of them decide whether its times can be trusted */
export function closureReader(
  cast: Cast | undefined,
  bottles: readonly Bottle[],
  settings: ClosureSettings = {},
): ClosureReader {
  if (cast === undefined || bottles.length === 0) {
    return { of: written, contradiction: () => undefined, notes: [] };
  }
  const up = upScans(cast, (settings.legs ?? splitLegs(cast)).clock);
  const start = cast.start ?? settings.start;
  const fromScans = new Set(bottles.filter((bottle) => needsScans(bottle, cast)));
  const clock = closureClock(up, cast, start, bottles);
  const places = new Map<Bottle, ClosureScans | undefined>();
  const placeOf = (bottle: Bottle) => {
    if (!places.has(bottle)) places.set(bottle, clock.scansOf(bottle) ?? standOf(up, bottle));
    return places.get(bottle);
  };
  const inMetres = areInMetres(bottles, (bottle) => {
    const place = clock.scansOf(bottle);
    return place && pressureAt(up, place);
  });
  return {
    of: (bottle, cell) => {
      const columns = cast.columns[cell];
      const place = columns && placeOf(bottle);
      if (columns === undefined || place === undefined) return written(bottle, cell);
      if (bottle.ctd?.[cell] === undefined)
        return readScans(up, columns, place, settings.lags?.[cell]);
      const own = written(bottle, cell);
      const closure = own && inMetres ? { ...own, pressure_dbar: pressureAt(up, place) } : own;
      return closure && withLag(up, columns, place, closure, settings.lags?.[cell]);
    },
    // What was written beside a bottle was read at its closure, whatever its time says.
    contradiction: (bottle) => (fromScans.has(bottle) ? clock.contradiction(bottle) : undefined),
    notes: [...(fromScans.size > 0 ? clock.notes : []), ...(inMetres ? [metresNote] : [])],
  };
}

function standOf(up: UpScans, { pressure_dbar }: Bottle): ClosureScans | undefined {
  return Number.isFinite(pressure_dbar) ? scansAtPressure(up, pressure_dbar) : undefined;
}

/** Whether some cell of the cast has no reading written beside the bottle. */
function needsScans({ ctd }: Bottle, cast: Cast | undefined): boolean {
  return (["primary", "secondary"] as const).some(
    (cell) => cast?.columns[cell] !== undefined && ctd?.[cell] === undefined,
  );
}

function written({ ctd, pressure_dbar }: Bottle, cell: CellName): Closure | undefined {
  const reading = ctd?.[cell];
  if (reading === undefined) return undefined;
  const { temperature_C, conductivity_mS_cm } = reading;
  return Number.isFinite(temperature_C) && conductivity_mS_cm > 0 && conductivity_mS_cm < Infinity
    ? { ...reading, pressure_dbar, uncertainty_ppm: 0, outerHeat_ppm: 0, how: "written" }
    : undefined;
}
