// The rows of a cast for any proposal.
import type { Proposal } from "../model/cause.js";
import { designRow } from "../model/designRow.js";
import type { Layout } from "../model/layout.js";
import { atTheTurn, type ChangePlaces } from "../model/placesOnCast.js";
import type { Rows } from "../model/rows.js";
import { compress } from "./compress.js";
import { eachOnce } from "./eachOnce.js";
import type { TrackedInput } from "./tracked.js";

/** The rows for an event with doubts, compressed once for each combination of places and extra variances. */
export function rowsFor(
  layout: Layout,
  { observations, path }: TrackedInput,
): (parts: readonly Proposal[]) => Rows {
  const values = observations.map(({ value }) => value);
  const placed = eachOnce((_: string, places: ChangePlaces) =>
    observations.map((each) => designRow(layout, each, places, path)),
  );
  // Functions that add the same variances share their rows.
  const withVariances = eachOnce((_: string, variances: readonly number[]) =>
    eachOnce((key: string, places: ChangePlaces) =>
      compress({ rows: placed(key, places), values, variances, logConstant: 0 }),
    ),
  );
  const withExtra = eachOnce((extra: Proposal["extraVariance"]) => {
    const variances = observations.map((each) => each.variance + (extra?.(each) ?? 0));
    return withVariances(variances.join(), variances);
  });
  return (parts) => {
    const extra = parts.findLast(({ extraVariance }) => extraVariance)?.extraVariance;
    const places: ChangePlaces = Object.assign({}, ...parts.map((part) => part.places));
    return withExtra(extra)(placesKey(places), places);
  };
}

/** Equal for places that give the same rows: the default place of a change needs no mention. */
function placesKey({ onsets = {}, ...others }: ChangePlaces): string {
  const placed = Object.entries(onsets).filter(([, place]) => place !== atTheTurn);
  return placed.length + Object.keys(others).length === 0 ? "" : JSON.stringify([placed, others]);
}
