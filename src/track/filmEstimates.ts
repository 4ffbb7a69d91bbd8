// The film estimates of one cell after a cast, reduced to a few numbers. Cleanings are judged from the casts before and
// after them, long after the hypotheses are pruned.
import { sum } from "d3-array";
import type { CellName } from "../cast/cast.js";
import { cellEvents, type FilmEvents } from "../model/eventHistory.js";
import { type Hypothesis, weightOf } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import { type FilmMoments, momentsOf, momentsOver } from "./gainMoments.js";

/** All hypotheses with the same film history: plain data. */
export interface FilmEstimate {
  readonly film: FilmEvents;
  /** Weight among all hypotheses, with or without a film. */
  readonly weight: number;
  /** Moments at the start of the down leg and at the end of the up leg, with the film. */
  readonly down: FilmMoments;
  readonly up: FilmMoments;
}

/** Estimates of one cell: `held` after the evidence of a cast, `now` after the maintenance that followed it. */
export interface FilmsOfCast {
  readonly afterEvidence: readonly FilmEstimate[];
  readonly afterMaintenance: readonly FilmEstimate[];
}

export function filmEstimates(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
): readonly FilmEstimate[] {
  const groups = new Map<string, { readonly film: FilmEvents; readonly own: Hypothesis[] }>();
  for (const hypothesis of hypotheses) {
    const { film } = cellEvents(hypothesis.events, cell);
    if (film === undefined) continue;
    const key = JSON.stringify(film);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { film, own: [hypothesis] });
    else group.own.push(hypothesis);
  }
  return [...groups.values()].flatMap(({ film, own }): readonly FilmEstimate[] => {
    const weight = weightOf(own);
    if (!(weight > 0)) return [];
    const moments = (slot: "filmDown" | "filmUp") => momentsOf(layout, own, cell, slot);
    return [{ film, weight, down: moments("filmDown"), up: moments("filmUp") }];
  });
}

/** Moments over several film histories together; undefined if there are none. */
export function momentsOfEstimates(
  estimates: readonly FilmEstimate[],
  leg: "down" | "up",
): FilmMoments | undefined {
  const total = sum(estimates, ({ weight }) => weight);
  if (!(total > 0)) return undefined;
  return momentsOver(estimates.map((one) => ({ share: one.weight / total, ...one[leg] })));
}
