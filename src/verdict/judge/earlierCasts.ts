// The causes that the verdicts on earlier casts gave.
import type { CellName } from "../../cast/cast.js";
import type { EarlierCast } from "../../model/causeEstimates.js";
import type { Verdict } from "../verdict.js";

/** @param verdicts of the casts before, in order */
export function earlierCasts(verdicts: readonly Verdict[], cell: CellName): readonly EarlierCast[] {
  return verdicts.map(({ cast, cells }) => ({
    cast,
    sound: cells[cell]?.causes[0]?.cause === "sound",
  }));
}
