// The laboratory salinities of a cast beside those of the CTD at the same closures.
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import type { CruiseCast } from "../../cast/cruise.js";
import { spFromC } from "../../seawater/index.js";
import { type ClosureReader, closureReader } from "./closureReadings.js";

/** Measured salinities of one cast. */
export interface Series {
  readonly cast: CruiseCast;
  readonly bottles: readonly Bottle[];
}

/** The reader of a cast at the closures of some of its bottles. */
export type ReaderOf = (cast: CruiseCast, bottles: readonly Bottle[]) => Pick<ClosureReader, "of">;

/** Reads the closures from the scans of the cast. */
export function fromItsScans(
  { data, start }: CruiseCast,
  bottles: readonly Bottle[],
): ClosureReader {
  return closureReader(data, bottles, start === undefined ? {} : { start });
}

/** One bottle. */
export interface LaboratoryBesideCtd {
  /** Salinity of the CTD, NaN without a reading. */
  readonly ctd: number;
  readonly laboratory: number;
}

/** The measured salinities of each cast that has at least `fewest` of them. */
export function measuredSeries(
  casts: readonly CruiseCast[],
  bottles: ReadonlyMap<string, readonly Bottle[]>,
  fewest: number,
): readonly Series[] {
  return casts
    .map((cast) => ({
      cast,
      bottles: (bottles.get(cast.id) ?? []).filter(({ salinity }) => salinity > 0),
    }))
    .filter((series) => series.bottles.length >= fewest);
}

/**
 * One entry for each bottle.
 * @param cells the first of them that was read counts
 */
export function laboratoryBesideCtd(
  { cast, bottles }: Series,
  cells: readonly CellName[],
  readerOf: ReaderOf,
): readonly LaboratoryBesideCtd[] {
  const reader = readerOf(cast, bottles);
  return bottles.map((bottle) => {
    const found = cells.flatMap((cell) => reader.of(bottle, cell) ?? [])[0];
    const ctd =
      found === undefined
        ? Number.NaN
        : spFromC(found.conductivity_mS_cm, found.temperature_C, found.pressure_dbar);
    return { ctd, laboratory: bottle.salinity };
  });
}
