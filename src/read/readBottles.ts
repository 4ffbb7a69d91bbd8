// The result of reading a file of bottles, for any format.
import type { Bottle } from "../cast/bottle.js";
import type { CruiseCast } from "../cast/cruise.js";
import { removeImpossibleClosures } from "../cast/impossibleClosures.js";
import type { InputFile } from "../cast/inputFile.js";

export interface ReadBottles {
  readonly bottles: readonly Bottle[];
  /** The casts named in the file, in order of appearance. */
  readonly casts: readonly CruiseCast[];
  readonly input: InputFile;
}

/** The bottles of a file without impossible readings, and the report on the file. */
export function readBottles(
  bottles: readonly Bottle[],
  casts: ReadonlyMap<string, CruiseCast>,
  file: Pick<InputFile, "name" | "rows" | "leftOut" | "notes">,
): ReadBottles {
  const possible = removeImpossibleClosures(bottles);
  return {
    bottles: possible.bottles,
    casts: [...casts.values()],
    input: {
      name: file.name,
      role: "bottles",
      rows: file.rows,
      leftOut: file.leftOut,
      notes: [...file.notes, ...possible.notes],
    },
  };
}
