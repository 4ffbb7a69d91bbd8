// Two cells on one package: ln(C1/C2) in the same water, the conductivity of each cell taken with its own temperature.
// Observes g(primary) - g(secondary), for each leg, very precisely. The causes decide which of the two changed.
// The two thermometers show whether the water was the same. If their difference is unusual, the weight of the pair is
// reduced.
import { minIndex } from "d3-array";
import type { LegName } from "../../cast/cast.js";
import type { LineResult, Observation } from "../../model/observation.js";
import { depthScatter_ppm, pairDesign } from "../../model/pairDesign.js";
import { median } from "../../statistics/robustCentre.js";
import type { PairDifference } from "./pairDifference.js";
import type { PairDifferences } from "./pairDifferences.js";
import {
  effectOf,
  neighbourScatter,
  type ResponseDifference,
  responseDifference,
} from "./responseDifference.js";

/**
 * Layers are joined into at most this many blocks for each leg, each of at least this many layers, so that a change within
 * the leg is visible (judgement).
 */
const blocks = 6;
const leastInBlock = 3;
/** If the parts of a block scatter by more than this many times their errors, they have different gains (judgement). */
const beyondChance = 2;

/** Remaining share of the lag effect on the pair after correction of the lag difference (judgement). */
const lagShareLeft = 0.3;
/**
 * The memory of a cell may be longer than its lag model says. Then the error of a part with a large lag effect extends to
 * the parts beside it, for example above a sharp thermocline. For these parts the lag difference is uncertain by at least
 * this, as a factor of the usual lag (judgement).
 */
const leastLagDifference = 0.5;
/**
 * The two intakes are not in exactly the same water: the place of each is uncertain by this, dbar (judgement: some
 * centimetres). The steepest gradient of salinity beside a part counts.
 */
const placeOfIntakes_dbar = 0.02;
/**
 * In gradients near the surface one cell alone may read wrong on the down leg, while the pump starts and the lines flush
 * (judgement). Above this pressure, dbar, the uncertainty of the blocks of the down leg includes the disagreement of the
 * two legs, at most the usual lag effect.
 */
const nearSurface_dbar = 400;

/** The two cells against each other as evidence on one cast. */
export function pairEvidence(castId: string, { from, byLeg }: PairDifferences): LineResult {
  const response = responseDifference(byLeg);
  const [down, up] = (["down", "up"] as const).map((leg) =>
    summarise(castId, leg, byLeg[leg] ?? [], response),
  );
  const observations = [...besideUpLeg(down!, up!), ...up!.map(({ observation }) => observation)];
  return {
    line: "pair",
    cast: castId,
    cell: "both",
    observations,
    leftOut: [],
    notes: observations.length > 0 && from === "closures" ? ["from bottle closures only"] : [],
  };
}

interface BlockDifference {
  readonly observation: Observation;
  /** Its value without the difference of the responses, ppm. */
  readonly level: number;
  /** The effect of the usual lag on one cell, ppm. */
  readonly lag: number;
}

/**
 * The blocks of the down leg. The variance of those near the surface includes their disagreement with the up leg, beyond
 * that of deeper blocks.
 */
function besideUpLeg(
  own: readonly BlockDifference[],
  other: readonly BlockDifference[],
): readonly Observation[] {
  const apart = own.map(({ observation, level }) => {
    const there = nearest(other, observation.pressure_dbar!);
    return there === undefined ? Number.NaN : level - there.level;
  });
  const isDeep = (at: number) => own[at]!.observation.pressure_dbar! >= nearSurface_dbar;
  const deeper = median(apart.filter((_, i) => isDeep(i)));
  return own.map(({ observation, lag }, i) => {
    const half = Math.abs(apart[i]! - deeper) / 2;
    if (isDeep(i) || Number.isNaN(half)) return observation;
    const beyond = Math.min(half, Math.abs(lag));
    return { ...observation, variance: observation.variance + beyond ** 2 };
  });
}

function nearest(
  blocks: readonly BlockDifference[],
  pressure_dbar: number,
): BlockDifference | undefined {
  const distance = ({ observation }: BlockDifference) =>
    Math.abs(observation.pressure_dbar! - pressure_dbar);
  return blocks[minIndex(blocks, distance)];
}

/** Differences of one leg as observations, one for each block of neighbours. */
function summarise(
  castId: string,
  leg: LegName,
  all: readonly PairDifference[],
  response: ResponseDifference,
): readonly BlockDifference[] {
  const sorted = [...all].sort((a, b) => a.pressure - b.pressure);
  const usual = median(sorted.map(({ temperature }) => temperature));
  const values = sorted.map((part) => part.value - effectOf(response, part));
  const scatter = neighbourScatter(values);
  const size = Math.max(leastInBlock, Math.ceil(sorted.length / blocks));
  const beside = Math.hypot(response.lag, leastLagDifference);
  // A block is as good as the best of its parts: parts are weighted by how usual their temperature difference is.
  const weighed = sorted.map((part, i) => {
    const stir = part.perKelvin * (part.temperature - usual);
    const own = Math.abs(part.lag);
    const near = sorted.slice(Math.max(0, i - 1), i + 2);
    const most = Math.max(...near.map(({ lag }) => Math.abs(lag)));
    const steepest = Math.max(...near.map(({ delay }) => Math.abs(delay)));
    const left = Math.hypot(
      lagShareLeft * (Math.abs(response.lag) * own + beside * (most - own)),
      placeOfIntakes_dbar * steepest,
    );
    return { ...part, left, weight: 1 / (scatter ** 2 + stir ** 2 + left ** 2) };
  });
  const found: BlockDifference[] = [];
  for (let start = 0, end = 0; start < weighed.length; start = end) {
    const { stretch } = weighed[start]!;
    while (end < Math.min(start + size, weighed.length) && weighed[end]!.stretch === stretch) end++;
    const parts = weighed.slice(start, end);
    const weights = parts.reduce((sum, { weight }) => sum + weight, 0);
    const value = parts.reduce((sum, part) => sum + part.weight * part.value, 0);
    const pressure = parts.reduce((sum, part) => sum + part.weight * part.pressure, 0);
    const lag = parts.reduce((sum, part) => sum + part.weight * part.lag, 0) / weights;
    const outerHeat = parts.reduce((sum, part) => sum + part.weight * part.outerHeat, 0) / weights;
    const delay = parts.reduce((sum, part) => sum + part.weight * part.delay, 0) / weights;
    // An error of the response does not average out over a block.
    const left = Math.sqrt(
      parts.reduce((sum, part) => sum + part.weight * part.left ** 2, 0) / weights,
    );
    const { water } = parts[Math.floor(parts.length / 2)]!;
    const observation: Observation = {
      line: "pair",
      onTheMove: true,
      cast: castId,
      design: pairDesign(
        leg,
        { pressure_dbar: pressure / weights, water },
        { lag, outerHeat, delay },
      ),
      unit: "ppm",
      value: value / weights,
      variance:
        1 / weights +
        depthScatter_ppm ** 2 +
        left ** 2 +
        disagreement(parts, value / weights - effectOf(response, { lag, delay }), response),
      pressure_dbar: pressure / weights,
      water,
    };
    const level = value / weights - effectOf(response, { lag, delay });
    found.push({ observation, level, lag });
  }
  return found;
}

/**
 * If a cell caught something within a block, its mean is not the gain of any part of it. Then the variance is increased: by
 * the variance of the parts about the level beyond twice that expected from their errors, ppm squared.
 */
function disagreement(
  parts: readonly (PairDifference & { readonly weight: number })[],
  level: number,
  response: ResponseDifference,
): number {
  const weights = parts.reduce((sum, { weight }) => sum + weight, 0);
  const squares = parts.reduce(
    (sum, part) => sum + part.weight * (part.value - effectOf(response, part) - level) ** 2,
    0,
  );
  return Math.max(0, (squares - beyondChance ** 2 * (parts.length - 1)) / weights);
}
