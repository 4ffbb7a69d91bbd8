// Two cells on one package: ln(C1/C2) at the same water, each cell's conductivity taken with its own
// temperature. Observes g(primary) - g(secondary), leg by leg and very precisely; which of the two moved
// is for the causes to say.
//
// The two thermometers tell how far the water was the same: where their difference is not the usual one,
// the pair says less.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, LegName } from "../../cast/cast.js";
import { layersInCommon } from "../../cast/layersInCommon.js";
import type { Legs } from "../../cast/splitLegs.js";
import { type ThinLayers, thinLayers } from "../../cast/thinLayers.js";
import { besideTheGain } from "../../model/designRow.js";
import {
  type DesignTerm,
  gainOf,
  type LineOfEvidence,
  type Observation,
  type Onset,
} from "../../model/observation.js";
import { spFromC, spFromCFirstDerivatives } from "../../seawater/index.js";
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";
import { closureReading } from "../bottles/closureReadings.js";

/** Readings in a layer of the profile are averaged over this, dbar. */
const layer_dbar = 50;
/** Thin layers in which one cell has this share of readings less than the other, or more, are passed over. */
const lacking = 0.05;
/** Layers are gathered into at most this many blocks a leg, so that a change within the leg shows. */
const blocks = 6;
const leastInBlock = 3;
/** Where too few differences tell their scatter, it is taken for this, ppm (judgement). */
export const unknownScatter_ppm = 10;
/**
 * What two healthy pairs of sensors differ by from depth to depth, ppm, however many readings are averaged:
 * small non-linearities and pressure effects of four sensors (judgement, from the closures of three cruises
 * in open data with two uncalibrated pairs, which differ by 10 to 25 ppm from 100 to 2500 dbar).
 */
export const unevenness_ppm = 6;
/** Parts of a block that scatter by more than so many times their errors are not of one gain (judgement). */
const beyondChance = 2;

/** The difference of the two gains at one place. */
export interface PairDifference {
  readonly pressure: number;
  /** ppm. */
  readonly value: number;
  readonly water: NonNullable<Observation["water"]>;
  /** Temperature 1 minus 2, K. */
  readonly temperature: number;
  /** What one kelvin of temperature error is worth, ppm. */
  readonly perKelvin: number;
  /** How many onsets lie above it: what is averaged together has the same number. */
  readonly stretch: number;
}

/** Both cells at the same places, by leg. */
export interface PairDifferences {
  readonly from: "scans" | "closures";
  readonly byLeg: Readonly<Partial<Record<LegName, readonly PairDifference[]>>>;
}

/**
 * The two cells at the same water, from the scans of both legs where they are at hand, else from the closures.
 * @param legs   as from `splitLegs`
 * @param thin   as from `thinLayers`, where it has been at it already
 * @param onsets where a step was seen: readings from above and below are kept apart, those about it left out
 */
export function pairDifferences(
  cast: Cast | undefined,
  legs: Legs | undefined,
  bottles: readonly Bottle[],
  thin = cast && legs && thinLayers(cast, legs),
  onsets: readonly Onset[] = [],
): PairDifferences {
  if (cast?.columns.secondary === undefined || thin === undefined) {
    return { from: "closures", byLeg: { up: closureDifferences(bottles) } };
  }
  const [down, up] = [layerDifferences(thin, "down", onsets), layerDifferences(thin, "up", onsets)];
  return { from: "scans", byLeg: { down, up } };
}

/** The pair on one cast. */
export function pairEvidence(castId: string, { from, byLeg }: PairDifferences): LineOfEvidence {
  const observations = (["down", "up"] as const).flatMap((leg) =>
    summarise(castId, leg, byLeg[leg] ?? []),
  );
  return {
    line: "pair",
    cast: castId,
    cell: "both",
    observations,
    leftOut: [],
    notes: observations.length > 0 && from === "closures" ? ["from bottle closures only"] : [],
  };
}

function difference(
  c1: number,
  t1: number,
  c2: number,
  t2: number,
  pressure: number,
  stretch: number,
): PairDifference {
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c1, t1, pressure);
  const perSalinity = 1e6 / (c1 * dSpDc);
  return {
    pressure,
    value: perSalinity * (spFromC(c1, t1, pressure) - spFromC(c2, t2, pressure)),
    water: { conductivity_mS_cm: c1, temperature_C: t1 },
    temperature: t1 - t2,
    perKelvin: perSalinity * Math.abs(dSpDt),
    stretch,
  };
}

function closureDifferences(bottles: readonly Bottle[]): readonly PairDifference[] {
  return bottles.flatMap((bottle) => {
    const first = closureReading(bottle, "primary", undefined);
    const second = closureReading(bottle, "secondary", undefined);
    if (first === undefined || second === undefined) return [];
    const found = difference(
      first.conductivity_mS_cm,
      first.temperature_C,
      second.conductivity_mS_cm,
      second.temperature_C,
      bottle.pressure_dbar,
      0,
    );
    return Number.isFinite(found.value) ? [found] : [];
  });
}

/** Means of both cells in layers that are put together of thin ones which both have, and the pair at those. */
function layerDifferences(
  { of, thickness_dbar }: ThinLayers,
  leg: LegName,
  onsets: readonly Onset[],
): readonly PairDifference[] {
  const [one, other] = [of(leg, "primary"), of(leg, "secondary")];
  const found: PairDifference[] = [];
  let [layer, stretch] = [Number.NaN, 0];
  let [c1, t1, c2, t2, p, count] = [0, 0, 0, 0, 0, 0];
  const finish = () => {
    if (count > 0)
      found.push(difference(c1 / count, t1 / count, c2 / count, t2 / count, p / count, stretch));
    [c1, t1, c2, t2, p, count] = [0, 0, 0, 0, 0, 0];
  };
  for (const [k, j] of layersInCommon(one, other, thickness_dbar)) {
    const pressure = one.pressure_dbar[k]!;
    const own = Math.floor(pressure / layer_dbar);
    const passed = onsets.filter(({ pressure_dbar }) => pressure_dbar < pressure).length;
    if (own !== layer || passed !== stretch) finish();
    [layer, stretch] = [own, passed];
    if (onsets.some((onset) => isAbout(onset, pressure))) continue;
    const scans = one.count[k]!;
    // Where one lacks readings its mean is of other water.
    if (Math.abs(other.count[j]! - scans) > lacking * scans) continue;
    c1 += scans * one.conductivity_mS_cm[k]!;
    t1 += scans * one.temperature_C[k]!;
    c2 += scans * other.conductivity_mS_cm[j]!;
    t2 += scans * other.temperature_C[j]!;
    p += scans * one.pressure_dbar[k]!;
    count += scans;
  }
  finish();
  return found.filter(({ value }) => Number.isFinite(value));
}

function isAbout({ pressure_dbar, standardUncertainty_dbar }: Onset, pressure: number): boolean {
  return Math.abs(pressure - pressure_dbar) <= standardUncertainty_dbar;
}

/** Differences of one leg as observations, one a block of neighbours. */
function summarise(castId: string, leg: LegName, all: readonly PairDifference[]): Observation[] {
  const sorted = [...all].sort((a, b) => a.pressure - b.pressure);
  const usual = median(sorted.map(({ temperature }) => temperature));
  const values = sorted.map(({ value }) => value);
  const scatter = neighbourScatter(values);
  const size = Math.max(leastInBlock, Math.ceil(sorted.length / blocks));
  // A block as good as the best of its parts: each weighs by how usual its temperatures are.
  const weighed = sorted.map((part) => {
    const stir = part.perKelvin * (part.temperature - usual);
    return { ...part, weight: 1 / (scatter ** 2 + stir ** 2) };
  });
  const observations: Observation[] = [];
  for (let start = 0, end = 0; start < weighed.length; start = end) {
    const { stretch } = weighed[start]!;
    while (end < Math.min(start + size, weighed.length) && weighed[end]!.stretch === stretch) end++;
    const parts = weighed.slice(start, end);
    const weights = parts.reduce((sum, { weight }) => sum + weight, 0);
    const value = parts.reduce((sum, part) => sum + part.weight * part.value, 0);
    const pressure = parts.reduce((sum, part) => sum + part.weight * part.pressure, 0);
    const { water } = parts[Math.floor(parts.length / 2)]!;
    observations.push({
      line: "pair",
      cast: castId,
      design: pairDesign(leg, { pressure_dbar: pressure / weights, water }),
      unit: "ppm",
      value: value / weights,
      variance: 1 / weights + unevenness_ppm ** 2 + disagreement(parts, value / weights),
      pressure_dbar: pressure / weights,
      water,
    });
  }
  return observations;
}

/** One gain less the other, with what sensors and thermometers differ by on this cast. */
export function pairDesign(
  leg: LegName,
  at: Pick<Observation, "pressure_dbar" | "water">,
): readonly DesignTerm[] {
  return [
    gainOf("primary", leg),
    gainOf("secondary", leg, -1),
    { shared: "pairWander", weight: 1 },
    // What the thermometers usually differ by is in the gains; what they do on one cast is not.
    { shared: "thermometersNow", weight: besideTheGain(at).perMillikelvin },
  ];
}

/**
 * Where a cell caught something amid a block, its mean is the gain of no part of it and holds for none of them:
 * the variance of the parts about it, beyond twice what their errors make, ppm squared.
 */
function disagreement(
  parts: readonly { readonly weight: number; readonly value: number }[],
  mean: number,
): number {
  const weights = parts.reduce((sum, { weight }) => sum + weight, 0);
  const squares = parts.reduce((sum, { weight, value }) => sum + weight * (value - mean) ** 2, 0);
  return Math.max(0, (squares - beyondChance ** 2 * (parts.length - 1)) / weights);
}

/** Scatter from differences of neighbours, which a trend or a step leaves alone, ppm. */
function neighbourScatter(values: readonly number[]): number {
  const steps = values.slice(1).map((value, i) => (value - values[i]!) / Math.SQRT2);
  const seen = steps.length < 3 ? 0 : madScale(steps, 0);
  const share = steps.length / (steps.length + 3);
  return Math.hypot(Math.sqrt(share) * seen, Math.sqrt(1 - share) * unknownScatter_ppm);
}
