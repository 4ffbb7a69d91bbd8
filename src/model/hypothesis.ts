// A hypothesis: what happened so far, how probable that is, and the coefficients given that.

import type { CellName } from "../cast/cast.js";
import { logSum } from "../statistics/logSum.js";
import { mixtureBeyond } from "../statistics/mixture.js";
import type { CauseName } from "./causeNames.js";
import type { Gaussian } from "./gaussian.js";
import { mixed } from "./mixed.js";
import type { Path } from "./path.js";
import { type CellSlot, cellIndex, type Layout } from "./state.js";
import { cellStory, type Story, storyKey } from "./story.js";

export interface Hypothesis {
  readonly logWeight: number;
  readonly state: Gaussian;
  readonly story: Story;
  /** The way it came; absent at the very start. */
  readonly path?: Path;
}

/**
 * Less than this is nothing to speak of: a clean gain of 51 ppm is the accuracy of 0.002 in salinity that WOCE asks
 * for [McTaggartEtAl2010], a film of 25 ppm half of it, 20 ppm per 1000 dbar all of it at 2500 dbar,
 * and 2 mK too.
 */
const worthNaming = { film_ppm: 25, cleanGain_ppm: 51, pressureResponse: 20, thermometer_mK: 2 };
/** How many hypotheses are followed, and how improbable one may be beside the best. */
const mostFollowed = 30;
const leastLogWeight = Math.log(1e-7);

/** Scale the weights to sum to one. */
export function normalise(hypotheses: readonly Hypothesis[]): readonly Hypothesis[] {
  const total = logSum(hypotheses.map(({ logWeight }) => logWeight));
  return hypotheses.map((h) => ({ ...h, logWeight: h.logWeight - total }));
}

/**
 * One Gaussian stands for two where their means differ by up to so many standard deviations, and these by up to such a
 * factor: in the sum of a narrow and a wide one the wide one's tail would be lost, and with it what later casts may prove
 * right. Finer than so many units of a coefficient nothing is told apart (judgement).
 */
const alike = { apart: 2, factor: 2.5, blur: 3 };

/** Join those that tell the same story with like coefficients, then follow only the most probable. */
export function gather(hypotheses: readonly Hypothesis[]): readonly Hypothesis[] {
  const best = Math.max(...hypotheses.map(({ logWeight }) => logWeight));
  const groups = new Map<string, Hypothesis[]>();
  for (const hypothesis of hypotheses) {
    if (!(hypothesis.logWeight > best + leastLogWeight)) continue;
    const key = storyKey(hypothesis.story);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [hypothesis]);
    else group.push(hypothesis);
  }
  const joined = [...groups.values()].flatMap(likeOnes).map(joinAlike);
  joined.sort((a, b) => b.logWeight - a.logWeight);
  return normalise(joined.slice(0, mostFollowed));
}

/** Each with the most probable one that it is like, which comes first. */
function likeOnes(group: readonly Hypothesis[]): readonly (readonly Hypothesis[])[] {
  if (group.length === 1) return [group];
  const sets: Hypothesis[][] = [];
  for (const hypothesis of [...group].sort((a, b) => b.logWeight - a.logWeight)) {
    const like = sets.find(([first]) => areAlike(first!.state, hypothesis.state));
    if (like === undefined) sets.push([hypothesis]);
    else like.push(hypothesis);
  }
  return sets;
}

function areAlike(a: Gaussian, b: Gaussian): boolean {
  const { apart, factor, blur } = alike;
  const size = a.mean.length;
  for (let i = 0; i < size; i++) {
    const one = a.covariance[i * (size + 1)]! + blur ** 2;
    const other = b.covariance[i * (size + 1)]! + blur ** 2;
    if ((a.mean[i]! - b.mean[i]!) ** 2 > apart ** 2 * (one + other)) return false;
    if (Math.max(one, other) > factor ** 2 * Math.min(one, other)) return false;
  }
  return true;
}

function joinAlike(group: readonly Hypothesis[]): Hypothesis {
  const first = group[0]!;
  if (group.length === 1) return first;
  const logWeight = logSum(group.map((h) => h.logWeight));
  const parts = group.map((h) => ({ share: Math.exp(h.logWeight - logWeight), state: h.state }));
  return { ...first, logWeight, state: mixed(parts) };
}

/**
 * The cause that a hypothesis gives for the state of a cell: what is wrong with the cell itself comes
 * before what is held against the references or the water.
 */
export function causeOf(layout: Layout, { story, state }: Hypothesis, cell: CellName): CauseName {
  const { doubt } = story;
  if (doubt?.cause === "undetermined") return "undetermined";
  const mean = (slot: CellSlot) => state.mean[cellIndex(layout, cell, slot)]!;
  const { film } = cellStory(story, cell);
  const size = Math.min(mean("filmDown"), mean("filmUp"));
  if (film !== undefined && size < -worthNaming.film_ppm) return "fouling";
  const passed = doubt?.cause === "transient" && doubt.cell === cell;
  if (passed && mean("event") < -worthNaming.film_ppm) return "transient";
  const clean = cellIndex(layout, cell, "clean");
  const variance = state.covariance[clean * layout.size + clean]!;
  const beyond = mixtureBeyond(
    [{ weight: 1, mean: mean("clean"), variance }],
    worthNaming.cleanGain_ppm,
  );
  if (beyond > 0.5) return "calibration-shift";
  if (Math.abs(mean("pressure")) > worthNaming.pressureResponse) return "pressure-response";
  if (Math.abs(mean("thermometer")) > worthNaming.thermometer_mK) return "temperature-error";
  const ours = doubt !== undefined && (doubt.cell ?? cell) === cell;
  return !ours || doubt.cause === "transient" ? "sound" : doubt.cause;
}
