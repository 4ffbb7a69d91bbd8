// The serial number of the cell in use on each cast.
import type { CellName } from "../../cast/cast.js";
import type { Cruise } from "../../cast/cruise.js";
import { isOf } from "./recordEntries.js";
import { recordOfCruise, type SecondsOf } from "./recordOfCruise.js";
import { timelineOf } from "./recordTimeline.js";

/** Time is not used here. */
const epoch = "1970-01-01T00:00:00Z";

/**
 * The serial number of each cell on each cast: that of the last exchange before it, otherwise that of the instrument at the
 * start of the cruise.
 * @returns by cast, then by cell; undefined if unknown
 */
export function cellSerials(
  cruise: Cruise,
  cells: readonly CellName[],
  secondsOf?: SecondsOf,
): readonly (readonly (string | undefined)[])[] {
  const { entries, casts } = timelineOf(recordOfCruise(cruise, cells, epoch, secondsOf));
  const exchanges = entries.filter(({ event }) => event.action === "exchange");
  return casts.map((_, cast) =>
    cells.map((cell) => {
      const fitted = exchanges.findLast((entry) => isOf(entry, cell) && entry.after < cast);
      return fitted === undefined ? cruise.instrument.sensors?.[cell]?.cell : fitted.event.serial;
    }),
  );
}
