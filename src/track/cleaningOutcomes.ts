// What past cleanings turned out to leave of a film, from the casts before and after them: what a cell's own
// record has to teach. The tracker follows the film with the priors; this reads off what became of it.
import type { CellName } from "../cast/cast.js";
import { intensityNames } from "../cast/maintenance.js";
import type { Layout } from "../model/layout.js";
import { seesGainOf } from "../model/observation.js";
import type { CleaningOutcome } from "../model/recovery.js";
import { type FilmThrough, filmsThrough, type Gap } from "./filmThrough.js";
import { shareBetween } from "./shareBetween.js";
import type { TrackedCast, TrackedInput } from "./tracked.js";

/** A cleaning and what it left, with where it stands in the cruise. */
export interface SeenCleaning extends CleaningOutcome {
  /** The cast it followed. */
  readonly afterCast: string;
  /** The first cast after it that observed the cell. */
  readonly seenInCast: string;
}

/** A share of which no more is known than that it lies between none and all has this standard deviation. */
const nothingKnown = 1 / Math.sqrt(12);

/**
 * The share of the film that each cleaning of a cell left, told from the casts up to one and from none later.
 * Cleanings with no observation of the cell between them count as one, the hardest. Nothing is said of a cleaning
 * where a film is less probable than 0.5, nor where the share is known no better than a share drawn at random.
 * @param inputs  the casts as they were given to `track`, in order
 * @param tracked what `track` made of them
 * @returns what was to be told when the cast of an index had come up, in order of time; an exchange of the cell with
 *   a share of 0. What does not change with later casts is reckoned once.
 */
export function cleaningOutcomes(
  layout: Layout,
  inputs: readonly TrackedInput[],
  tracked: readonly TrackedCast[],
  cell: CellName,
): (until: number) => readonly SeenCleaning[] {
  const known = new Map<string, CleaningOutcome["retained"] | undefined>();
  const shareIn = (gap: Gap, last: number) => {
    const key = `${gap.before} ${last}`;
    if (!known.has(key)) {
      known.set(key, shareOf(filmsThrough(layout, inputs, tracked, cell, gap, last)));
    }
    return known.get(key);
  };
  const gaps = gapsOf(inputs, cell);
  return (until) => {
    const seen = gaps.filter(({ after }) => after <= until);
    return seen.flatMap((gap, i): readonly SeenCleaning[] => {
      const { intensity, afterCast, after } = gap;
      const at = { intensity, cell, afterCast, seenInCast: inputs[after]!.cast };
      if (intensity === "exchange") return [{ ...at, retained: { mean: 0, sd: 0 } }];
      // What is done next changes the film again, a rinse hardly; of a rinse itself the next cast says all.
      const next = seen.slice(i + 1).find((later) => later.intensity !== "rinse");
      const last = intensity === "rinse" ? after : (next?.before ?? until);
      const retained = shareIn(gap, last);
      return retained === undefined || retained.sd >= nothingKnown ? [] : [{ ...at, retained }];
    });
  };
}

/** Mean and standard deviation over the hypotheses that hold a film through the cleaning. */
function shareOf(films: readonly FilmThrough[]): CleaningOutcome["retained"] | undefined {
  const total = films.reduce((sum, { weight }) => sum + weight, 0);
  if (total < 0.5) return undefined;
  const shares = films.map(({ weight, before, after, growth_ppm }) => ({
    weight: weight / total,
    ...shareBetween(before, after, growth_ppm),
  }));
  const mean = shares.reduce((sum, share) => sum + share.weight * share.mean, 0);
  const variance = shares.reduce(
    (sum, share) => sum + share.weight * (share.sd ** 2 + (share.mean - mean) ** 2),
    0,
  );
  return { mean, sd: Math.sqrt(variance) };
}

function gapsOf(inputs: readonly TrackedInput[], cell: CellName): readonly Gap[] {
  const observed = inputs.flatMap(({ observations }, i) =>
    observations.some((observation) => seesGainOf(observation, cell)) ? [i] : [],
  );
  return observed.slice(1).flatMap((after, i): readonly Gap[] => {
    const before = observed[i]!;
    const done = inputs
      .slice(before, after)
      .flatMap(({ cast, maintenanceAfter }) =>
        maintenanceAfter
          .filter((event) => event.cell === undefined || event.cell === cell)
          .map(({ action }) => ({ action, cast })),
      );
    // A new calibration begins the tracker's knowledge of the clean gain anew: nothing to hold a film against.
    if (done.some(({ action }) => action === "calibration")) return [];
    const hardest = intensityNames.findLast((name) => done.some(({ action }) => action === name));
    if (hardest === undefined) return [];
    const { cast } = done.findLast(({ action }) => action === hardest)!;
    return [{ before, after, intensity: hardest, afterCast: cast }];
  });
}
