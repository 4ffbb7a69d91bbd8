// Further inputs of the verdict on a cast, beside its evidence: plain values.
import type { CellName } from "../../cast/cast.js";
import type { Cruise, CruiseCast } from "../../cast/cruise.js";
import { cellSerials } from "../../cleaning/record/serials.js";
import type { KnownCruise } from "../gather/knownCruise.js";

export interface JudgementInputs {
  readonly hoursToNext: number;
  /** Serial numbers of the cells; undefined if unknown. */
  readonly serials: readonly (string | undefined)[];
  /** The newest cast also uses the maintenance since. */
  readonly isNewest: boolean;
  /** Time for cleaning before the next cast. */
  readonly minutesAvailable?: number;
}

/** Hours to the next cast if unknown (common practice, no source). */
const usualHours = 12;

/** One for each cast, in order. */
export function judgementInputs(
  { cruise, casts }: KnownCruise,
  cells: readonly CellName[],
): readonly JudgementInputs[] {
  const seconds = new Map(casts.map(({ cast, seconds }) => [cast.id, seconds]));
  const serials = cellSerials(cruise, cells, ({ id }) => seconds.get(id));
  return casts.map((_, index): JudgementInputs => {
    const isNewest = index === casts.length - 1;
    const minutes = isNewest ? cruise.nextStation?.minutesAvailable : undefined;
    return {
      hoursToNext: hoursToNext(cruise, index),
      serials: serials[index]!,
      isNewest,
      ...(minutes === undefined ? {} : { minutesAvailable: minutes }),
    };
  });
}

function hoursToNext({ casts, nextStation }: Cruise, index: number): number {
  const from = Date.parse(casts[index]?.start ?? "");
  const next: CruiseCast | undefined = casts[index + 1];
  const to = Date.parse(next?.start ?? (next === undefined ? nextStation?.time : undefined) ?? "");
  return to > from ? (to - from) / 3_600_000 : usualHours;
}
