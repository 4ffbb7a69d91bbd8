// The film of a cell before and after a cleaning, as each story that holds one tells it.
import type { CellName } from "../cast/cast.js";
import type { IntensityName } from "../cast/maintenance.js";
import { type Hypothesis, weightOf } from "../model/hypothesis.js";
import { type CellSlot, cellIndex, type Layout } from "../model/layout.js";
import { filmNoise } from "../model/noise.js";
import { cellStory, type FilmStory, type Since } from "../model/story.js";
import { type GainAndClean, type Measured, observedAlone } from "./shareBetween.js";
import { daysBetween, type TrackedCast, type TrackedInput } from "./tracked.js";

/** Two casts that observed the cell, one after the other, with a cleaning of it between. */
export interface Gap {
  /** Indices of the casts. */
  readonly before: number;
  readonly after: number;
  /** The hardest done between. */
  readonly intensity: IntensityName;
  readonly afterCast: string;
}

export interface FilmThrough {
  /** Of all hypotheses; they sum to the probability that there was a film. */
  readonly weight: number;
  readonly before: GainAndClean;
  /** The gain as the cast after it observed it, what was expected of the cleaning taken out. */
  readonly after: Measured;
  /** What the film grew by itself between the two, ppm, negative. */
  readonly growth_ppm: number;
}

/** Less is no film to speak of, and no cleaning can be judged by it: 10 ppm is 0.0004 in salinity. */
const leastFilm_ppm = 10;

/**
 * The weights are those of the latest cast that still speaks of this film: what comes later decides between stories.
 * @param last index of the last cast that may be looked at
 */
export function filmsThrough(
  layout: Layout,
  inputs: readonly TrackedInput[],
  tracked: readonly TrackedCast[],
  cell: CellName,
  gap: Gap,
  last: number,
): readonly FilmThrough[] {
  const order = new Map(inputs.map(({ cast }, i) => [cast, i]));
  const filmOf = ({ story }: Hypothesis) => cellStory(story, cell).film;
  const began = ({ since }: FilmStory) => beginning(since, order);
  const there = (film: FilmStory | undefined) => film !== undefined && began(film) <= gap.before;
  const newer = (hypothesis: Hypothesis) => {
    const film = filmOf(hypothesis);
    return film !== undefined && began(film) > gap.after;
  };
  let told = gap.after;
  while (told < last && weightOf(tracked[told + 1]!.hypotheses.filter(newer)) < 0.5) told++;

  // How the cleanings between went, as a story tells it.
  const went = ({ gone }: FilmStory) =>
    gone
      .filter(({ cast, when }) => when === "after" && isBetween(order.get(cast) ?? -1, gap))
      .map(({ how }) => how)
      .join();
  const key = (film: FilmStory) => JSON.stringify([film.since, went(film)]);
  const days = daysOver(inputs, gap);
  const weights = new Map<string, { readonly film: FilmStory; weight: number }>();
  for (const hypothesis of tracked[told]!.hypotheses) {
    const film = filmOf(hypothesis);
    if (film === undefined || !there(film)) continue;
    const entry = weights.get(key(film)) ?? { film, weight: 0 };
    entry.weight += Math.exp(hypothesis.logWeight);
    weights.set(key(film), entry);
  }
  return [...weights.values()].flatMap(({ film, weight }): readonly FilmThrough[] => {
    const same = (other: FilmStory | undefined) =>
      other !== undefined && beginning(other.since, order) === began(film);
    const alike = (held: readonly Hypothesis[]) => {
      const ours = held.filter((h) => same(filmOf(h)));
      const told = ours.filter((h) => went(filmOf(h)!) === went(film));
      return told.length > 0 ? told : ours;
    };
    const earlier = tracked[gap.before]!.hypotheses.filter((h) => same(filmOf(h)));
    const before = momentsOf(layout, earlier, cell, "filmUp");
    const expected = momentsOf(layout, alike(tracked[gap.after - 1]!.now), cell, "filmUp");
    const held = momentsOf(layout, alike(tracked[gap.after]!.hypotheses), cell, "filmDown");
    if (before === undefined || expected === undefined || held === undefined) return [];
    if (before.gain - before.clean > -leastFilm_ppm) return [];
    const after = observedAlone(
      {
        mean:
          expected.gain + expected.rate * daysBetween(inputs[gap.after - 1], inputs[gap.after]!),
        variance: expected.gainVariance + filmNoise.usual ** 2,
      },
      { mean: held.gain, variance: held.gainVariance },
    );
    if (after === undefined) return [];
    return [{ weight, before, after, growth_ppm: Math.min(0, held.rate * days) }];
  });
}

function beginning({ cast, when }: Since, order: ReadonlyMap<string, number>): number {
  if (when === "from the start") return -1;
  return (order.get(cast) ?? Number.POSITIVE_INFINITY) + (when === "after" ? 0.5 : 0);
}

function isBetween(index: number, { before, after }: Gap): boolean {
  return index >= before && index < after;
}

function daysOver(inputs: readonly TrackedInput[], { before, after }: Gap): number {
  let days = 0;
  for (let i = before; i < after; i++) days += daysBetween(inputs[i], inputs[i + 1]!);
  return days;
}

/** Gain, clean gain and rate of growth over some hypotheses together; undefined where there is none. */
function momentsOf(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  slot: "filmDown" | "filmUp",
): (GainAndClean & { readonly rate: number }) | undefined {
  const total = weightOf(hypotheses);
  if (!(total > 0)) return undefined;
  const at = (name: CellSlot) => cellIndex(layout, cell, name);
  const own = hypotheses.map(({ logWeight, state: { mean, covariance } }) => {
    const between = (i: number, j: number) => covariance[i * layout.size + j]!;
    const [clean, film] = [at("clean"), at(slot)];
    return {
      share: Math.exp(logWeight) / total,
      gain: mean[clean]! + mean[film]!,
      clean: mean[clean]!,
      rate: mean[at("filmRate")]!,
      gainVariance: between(clean, clean) + 2 * between(clean, film) + between(film, film),
      cleanVariance: between(clean, clean),
      covariance: between(clean, clean) + between(clean, film),
    };
  });
  const over = (value: (one: (typeof own)[number]) => number) =>
    own.reduce((sum, one) => sum + one.share * value(one), 0);
  const [gain, clean] = [over((one) => one.gain), over((one) => one.clean)];
  return {
    gain,
    clean,
    rate: over((one) => one.rate),
    gainVariance: over((one) => one.gainVariance + (one.gain - gain) ** 2),
    cleanVariance: over((one) => one.cleanVariance + (one.clean - clean) ** 2),
    covariance: over((one) => one.covariance + (one.gain - gain) * (one.clean - clean)),
  };
}
