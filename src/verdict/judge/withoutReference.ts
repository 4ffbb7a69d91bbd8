// A note on a verdict without any reference so far.
import type { Cruise } from "../../cast/cruise.js";
import type { PastCast } from "../../track/pastCast.js";

/** One note, or none. */
export function withoutReference(
  { deepReference }: Cruise,
  soFar: readonly PastCast[],
): readonly string[] {
  // Without a reference table, the deep water of a cast is compared only with that of earlier casts.
  const lines = deepReference === undefined ? ["bottles"] : ["bottles", "deep-water"];
  const referred = soFar.some((past) => lines.some((line) => past.lines[line] !== undefined));
  return referred
    ? []
    : [
        "no reference yet. An older error is judged only by how well cells are usually calibrated, and by comparing the cells",
      ];
}
