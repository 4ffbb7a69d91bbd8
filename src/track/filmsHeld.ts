// What the hypotheses hold of the films in one cell after a cast, in a few numbers: the record of a cleaning is read
// from the casts before and after it, long after their hypotheses are gone.
import type { CellName } from "../cast/cast.js";
import { type Hypothesis, weightOf } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import { cellStory, type FilmStory } from "../model/story.js";
import { type FilmMoments, momentsOf, momentsOver } from "./gainMoments.js";

/** All hypotheses of one story of the film: plain data. */
export interface FilmHeld {
  readonly film: FilmStory;
  /** Of all hypotheses, with or without a film. */
  readonly weight: number;
  /** With the film as the down leg begins, and as the up leg ends. */
  readonly down: FilmMoments;
  readonly up: FilmMoments;
}

/** Of one cell: as the evidence of a cast is in, and after what the record says was done since. */
export interface FilmsOfCast {
  readonly held: readonly FilmHeld[];
  readonly now: readonly FilmHeld[];
}

export function filmsHeld(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
): readonly FilmHeld[] {
  const groups = new Map<string, { readonly film: FilmStory; readonly own: Hypothesis[] }>();
  for (const hypothesis of hypotheses) {
    const { film } = cellStory(hypothesis.story, cell);
    if (film === undefined) continue;
    const key = JSON.stringify(film);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { film, own: [hypothesis] });
    else group.own.push(hypothesis);
  }
  return [...groups.values()].flatMap(({ film, own }): readonly FilmHeld[] => {
    const weight = weightOf(own);
    if (!(weight > 0)) return [];
    const moments = (slot: "filmDown" | "filmUp") => momentsOf(layout, own, cell, slot);
    return [{ film, weight, down: moments("filmDown"), up: moments("filmUp") }];
  });
}

/** Over several stories together; undefined where there is none. */
export function momentsHeld(
  held: readonly FilmHeld[],
  leg: "down" | "up",
): FilmMoments | undefined {
  const total = held.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return undefined;
  return momentsOver(held.map((one) => ({ share: one.weight / total, ...one[leg] })));
}
