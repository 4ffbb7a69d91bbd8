// Corrections after the cruise: what all casts together say of every cast. The filter is run once more with the noise
// that the whole cruise taught, and carries along what every cast read, so that later casts go on teaching of it.
import type { CellName, LegName } from "../cast/cast.js";
import type { Mixture } from "../statistics/mixture.js";
import { usualNoise } from "./noise.js";
import { remember } from "./remember.js";
import { cellIndex, gainRow, type Layout, layoutFor } from "./state.js";
import {
  afterCast,
  beginAll,
  type Recovery,
  startOf,
  type TrackedCast,
  type TrackedInput,
  throughCast,
  track,
} from "./track.js";

/** The whole cruise behind every cast. */
export interface SmoothedCruise {
  readonly layout: Layout;
  /** What is held at the end, whose stories tell when things began, over all of the cruise. */
  readonly atEnd: TrackedCast;
  /** The gain that a cell read with on a cast and leg at a pressure, ppm. */
  readonly gain: (cast: string, cell: CellName, leg: LegName, depth: Depth) => Mixture;
}

/** At the surface, or how much deeper the gain is told: the response to pressure is in it. */
export type Depth = "surface" | "at 1000 dbar";
const depths: readonly Depth[] = ["surface", "at 1000 dbar"];
const legNames: readonly LegName[] = ["down", "up"];

/**
 * @param cells    cells of the package
 * @param inputs   casts in order of time, all of the cruise
 * @param recovery what each intensity of cleaning leaves of a film
 * @param wanted   casts whose gains are asked for; all where absent
 * @throws RangeError without casts, and where a gain is asked for that was not wanted
 */
export function smooth(
  cells: readonly CellName[],
  inputs: readonly TrackedInput[],
  recovery: Recovery,
  wanted: ReadonlySet<string> = new Set(inputs.map(({ cast }) => cast)),
): SmoothedCruise {
  const noise = track(cells, inputs, recovery).at(-1)?.noise ?? usualNoise;
  const layout = layoutFor(cells);
  const rows = cells.flatMap((cell) =>
    legNames.flatMap((leg) => depths.map((depth) => rowAt(layout, cell, leg, depth))),
  );
  let held = beginAll(layout, startOf(layout), inputs, noise);
  let silent = 0;
  let atEnd: TrackedCast | undefined;
  for (const [i, input] of inputs.entries()) {
    const passed = throughCast(layout, held, input, inputs[i - 1], silent, noise);
    const kept = wanted.has(input.cast) ? rows : [];
    const hypotheses = passed.map((h) => ({ ...h, state: remember(h.state, kept) }));
    held = afterCast(layout, hypotheses, input, recovery, noise);
    atEnd = { cast: input.cast, hypotheses, now: held, noise };
    silent = input.observations.length > 0 ? 0 : silent + 1;
  }
  if (atEnd === undefined)
    throw new RangeError("a cruise to smooth has at least one cast, found none");
  const last = atEnd;
  const order = inputs.filter(({ cast }) => wanted.has(cast)).map(({ cast }) => cast);
  return {
    layout,
    atEnd,
    gain: (cast, cell, leg, depth) => {
      const within = cells.indexOf(cell) * legNames.length + legNames.indexOf(leg);
      const place = order.indexOf(cast);
      if (place < 0) throw new RangeError(`expected a cast that was wanted, found ${cast}`);
      const at = place * rows.length + within * depths.length + depths.indexOf(depth);
      return last.hypotheses.map(({ logWeight, state: { past } }) => ({
        weight: Math.exp(logWeight),
        mean: past!.mean[at]!,
        variance: Math.max(0, past!.variance[at]!),
      }));
    },
  };
}

function rowAt(layout: Layout, cell: CellName, leg: LegName, depth: Depth): Float64Array {
  const row = gainRow(layout, cell, leg);
  if (depth !== "surface") row[cellIndex(layout, cell, "pressure")] = 1;
  return row;
}
