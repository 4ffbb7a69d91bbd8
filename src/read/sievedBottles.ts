// The result of reading a file of bottles, for any format.
import type { Bottle } from "../cast/bottle.js";
import type { CruiseCast } from "../cast/cruise.js";
import type { InputFile } from "../cast/inputFile.js";
import { sieveBottles } from "../cast/sieveBottles.js";

export interface ReadBottles {
  readonly bottles: readonly Bottle[];
  /** The casts named in the file, in order of appearance. */
  readonly casts: readonly CruiseCast[];
  readonly input: InputFile;
}

/** The bottles of a file without impossible readings, and the report on the file. */
export function sievedBottles(
  bottles: readonly Bottle[],
  casts: ReadonlyMap<string, CruiseCast>,
  file: Pick<InputFile, "name" | "rows" | "leftOut" | "notes">,
): ReadBottles {
  const sieved = sieveBottles(bottles);
  return {
    bottles: sieved.bottles,
    casts: [...casts.values()],
    input: {
      name: file.name,
      role: "bottles",
      rows: file.rows,
      leftOut: file.leftOut,
      notes: [...file.notes, ...sieved.notes],
    },
  };
}
