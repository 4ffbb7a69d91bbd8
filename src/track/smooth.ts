// Corrections after the cruise: the estimate for every cast from all casts together. The filter runs once more with the
// noise of the whole cruise. It keeps the errors of every cast in the state, so that later casts improve them.
import { rollup, sum } from "d3-array";
import type { CellName, LegName } from "../cast/cast.js";
import { causeOf } from "../causes/causeOf.js";
import { type CauseName, causeNames } from "../causes/index.js";
import type { CellPriors } from "../model/cellPrior.js";
import type { Hypothesis } from "../model/hypothesis.js";
import type { Layout } from "../model/layout.js";
import type { Noise } from "../model/noise.js";
import { smoothedEntries } from "../model/past.js";
import type { Recovery } from "../model/recovery.js";
import { type ErrorComponent, errorComponent, smoothedRows } from "./errorComponent.js";
import { informative } from "./informative.js";
import { layoutOf, startOf } from "./layout.js";
import { storeForSmoothing } from "./storeForSmoothing.js";
import {
  applyMaintenance,
  finishCast,
  initialFilter,
  initialHypotheses,
  predictAndUpdate,
  updateWithCast,
} from "./track.js";
import type { TrackedCast, TrackedInput } from "./tracked.js";

/** Estimates for every cast from the whole cruise. */
export interface SmoothedCruise {
  readonly layout: Layout;
  /** The posterior at the end; its event histories tell the onset times over the whole cruise. */
  readonly atEnd: TrackedCast;
  /** The errors of a cell on a cast and leg, one component for each hypothesis; the weights sum to one. */
  readonly error: (cast: string, cell: CellName, leg: LegName) => readonly ErrorComponent[];
  /** The probability of each cause for the state of a cell on a cast. */
  readonly causes: (cast: string, cell: CellName) => ReadonlyMap<CauseName, number>;
}

/**
 * Estimates for every cast of a cruise from all its casts.
 * @param cells    cells of the package
 * @param given    all casts of the cruise, in order of time
 * @param recovery the share of a film that each intensity of cleaning leaves
 * @param wanted   casts whose gains are needed; default all
 * @param priors  results of earlier cruises for the cells
 * @throws RangeError without casts, or if the gain of a cast that is not in `wanted` is read
 */
export function smooth(
  cells: readonly CellName[],
  given: readonly TrackedInput[],
  recovery: Recovery,
  wanted: ReadonlySet<string> = new Set(given.map(({ cast }) => cast)),
  priors: CellPriors = {},
): SmoothedCruise {
  const inputs = given.map(informative);
  const layout = layoutOf(cells);
  const noise = noiseAtEnd(layout, inputs, recovery, priors);
  const blocks = cells.map((cell) => smoothedRows(layout, cell));
  const next = nextWithEvidence(inputs, wanted);
  const kept = new Set([...wanted, ...[...next.values()].map(({ cast }) => cast)]);
  // The noise is known here, so the updates of a hypothesis are no longer needed.
  let current: readonly Hypothesis[] = initialHypotheses(
    layout,
    startOf(layout),
    inputs[0]?.cast ?? "",
    priors,
  ).map(({ updates: _, ...hypothesis }) => hypothesis);
  let silent = 0;
  let atEnd: TrackedCast | undefined;
  for (const [i, input] of inputs.entries()) {
    const passed = predictAndUpdate(layout, current, input, inputs[i - 1], silent, noise);
    const hypotheses = kept.has(input.cast)
      ? passed.map((h) => ({ ...h, state: storeForSmoothing(h.state, blocks, shares(layout, h)) }))
      : passed;
    current = applyMaintenance(layout, hypotheses, input, recovery);
    atEnd = { cast: input.cast, hypotheses, afterMaintenance: current, noise };
    silent = input.observations.length > 0 ? 0 : silent + 1;
  }
  if (atEnd === undefined)
    throw new RangeError("a cruise to smooth has at least one cast, found none");
  const last = atEnd;
  const order = inputs.filter(({ cast }) => kept.has(cast)).map(({ cast }) => cast);
  const placeOf = (cast: string) => {
    const place = order.indexOf(cast);
    if (place < 0) throw new RangeError(`expected one of the requested casts, found ${cast}`);
    return place;
  };
  /**
   * Where the estimate of a cast is stored: at the cast itself and, without evidence, also at the next cast with
   * evidence.
   */
  const placesOf = (cast: string) => {
    const after = next.get(cast);
    const own = { place: placeOf(cast), share: 1 - (after?.share ?? 0), later: false };
    if (after === undefined) return [own];
    return [own, { place: placeOf(after.cast), share: after.share, later: true }];
  };
  const pasts = last.hypotheses.map(({ logWeight, state }) => ({
    weight: Math.exp(logWeight),
    casts: smoothedEntries(state.past!),
  }));
  const labels = cells.length * causeNames.length;
  return {
    layout,
    atEnd,
    error: (cast, cell, leg) => {
      const block = cells.indexOf(cell);
      const places = placesOf(cast);
      return pasts.flatMap(({ weight, casts }) =>
        places.map(({ place, share, later }) =>
          errorComponent(casts[place]!, block, later ? "down" : leg, weight * share),
        ),
      );
    },
    causes: (cast, cell) => {
      const own = cells.indexOf(cell) * causeNames.length;
      const held = placesOf(cast).flatMap(({ place, share, later }) =>
        causeNames.flatMap((cause, k) =>
          pasts.map(({ weight, casts }) => ({
            cause,
            // A doubt belongs to its own cast only. `shares` holds both versions, one after the other.
            probability: share * weight * casts[place]!.shares[(later ? labels : 0) + own + k]!,
          })),
        ),
      );
      return rollup(
        held.filter(({ probability }) => probability > 0),
        (same) => sum(same, ({ probability }) => probability),
        ({ cause }) => cause,
      );
    },
  };
}

/** The noise estimated from the whole cruise. */
function noiseAtEnd(
  layout: Layout,
  inputs: readonly TrackedInput[],
  recovery: Recovery,
  priors: CellPriors,
): Noise {
  let left = initialFilter(layout, inputs[0]?.cast ?? "", priors);
  let { noise } = left;
  for (const [i, input] of inputs.entries()) {
    const followed = updateWithCast(layout, left, input, inputs[i - 1]);
    noise = followed.noise;
    left = finishCast(layout, followed, input, recovery);
  }
  return noise;
}

interface NextEvidence {
  readonly cast: string;
  readonly share: number;
}

/**
 * For each cast without evidence: the next cast with evidence, and a share. The share is the probability that a change
 * between the casts with evidence had already come by this cast; all casts are equally likely. Casts before maintenance
 * have none.
 */
function nextWithEvidence(
  inputs: readonly TrackedInput[],
  wanted: ReadonlySet<string>,
): ReadonlyMap<string, NextEvidence> {
  const found = new Map<string, NextEvidence>();
  let silent: string[] = [];
  for (const { cast, observations, maintenanceAfter } of inputs) {
    if (observations.length === 0) silent.push(cast);
    else {
      for (const [i, before] of silent.entries())
        if (wanted.has(before)) found.set(before, { cast, share: (i + 1) / (silent.length + 1) });
      silent = [];
    }
    if (maintenanceAfter.length > 0) silent = [];
  }
  return found;
}

/** The cause that the hypothesis gives, as shares by cell: first with the doubts of the cast, then without. */
function shares(layout: Layout, hypothesis: Hypothesis): readonly number[] {
  const standing = { ...hypothesis, events: { cells: hypothesis.events.cells } };
  return [hypothesis, standing].flatMap((variant) =>
    layout.cells.flatMap((cell) => {
      const held = causeOf(layout, variant, cell);
      return causeNames.map((cause) => (cause === held ? 1 : 0));
    }),
  );
}
