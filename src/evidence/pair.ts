// Two cells on one package: ln(C1/C2) at the same water, each cell's conductivity taken with its own
// temperature. Observes g(primary) - g(secondary), leg by leg and very precisely; which of the two moved
// is for the causes to say.
//
// The two thermometers tell how far the water was the same: where their difference is not the usual one,
// the pair says less.
import type { Bottle } from "../cast/bottle.js";
import type { Cast, LegName } from "../cast/cast.js";
import { spFromC, spFromCFirstDerivatives } from "../seawater/index.js";
import { madScale } from "../statistics/madScale.js";
import { median } from "../statistics/robustCentre.js";
import { closureReading } from "./closureReadings.js";
import type { LineOfEvidence, Observation } from "./evidence.js";

/** Readings in a layer of the profile are averaged over this, dbar. */
const layer_dbar = 50;
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
}

/** Both cells at the same places, by leg. */
export interface PairDifferences {
  readonly from: "scans" | "closures";
  readonly byLeg: Readonly<Partial<Record<LegName, readonly PairDifference[]>>>;
}

/**
 * The two cells at the same water, from the scans of both legs where they are at hand, else from the closures.
 * @param legs scan indices of the usable part of each leg, in the order of `cast`
 */
export function pairDifferences(
  cast: Cast | undefined,
  legs: Readonly<Record<LegName, ArrayLike<number>>> | undefined,
  bottles: readonly Bottle[],
): PairDifferences {
  if (cast?.columns.secondary === undefined || legs === undefined) {
    return { from: "closures", byLeg: { up: closureDifferences(bottles) } };
  }
  const [down, up] = [scanDifferences(cast, legs.down), scanDifferences(cast, legs.up)];
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
): PairDifference {
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c1, t1, pressure);
  const perSalinity = 1e6 / (c1 * dSpDc);
  return {
    pressure,
    value: perSalinity * (spFromC(c1, t1, pressure) - spFromC(c2, t2, pressure)),
    water: { conductivity_mS_cm: c1, temperature_C: t1 },
    temperature: t1 - t2,
    perKelvin: perSalinity * Math.abs(dSpDt),
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
    );
    return Number.isFinite(found.value) ? [found] : [];
  });
}

/** Means of both cells' readings in layers, and the pair at those. */
function scanDifferences(cast: Cast, scans: ArrayLike<number>): readonly PairDifference[] {
  const { pressure_dbar, primary, secondary } = cast.columns;
  if (secondary === undefined) return [];
  const [c1, t1] = [primary.conductivity_mS_cm, primary.temperature_C];
  const [c2, t2] = [secondary.conductivity_mS_cm, secondary.temperature_C];
  // Sums of c1, t1, c2, t2 and p in each layer, and the count of its scans.
  const layers = new Map<number, Float64Array>();
  let layer = Number.NaN;
  let sums: Float64Array = new Float64Array(6);
  for (let k = 0; k < scans.length; k++) {
    const i = scans[k]!;
    const p = pressure_dbar[i]!;
    if (!Number.isFinite(p + c1[i]! + t1[i]! + c2[i]! + t2[i]!)) continue;
    const own = Math.floor(p / layer_dbar);
    if (own !== layer) {
      layer = own;
      sums = layers.get(layer) ?? new Float64Array(6);
      layers.set(layer, sums);
    }
    sums[0]! += c1[i]!;
    sums[1]! += t1[i]!;
    sums[2]! += c2[i]!;
    sums[3]! += t2[i]!;
    sums[4]! += p;
    sums[5]! += 1;
  }
  return [...layers.values()].flatMap((sums) => {
    const [c1, t1, c2, t2, p] = sums.map((sum) => sum / sums[5]!) as unknown as [
      number,
      number,
      number,
      number,
      number,
    ];
    const found = difference(c1, t1, c2, t2, p);
    return Number.isFinite(found.value) ? [found] : [];
  });
}

/** Differences of one leg as observations, one a block of neighbours. */
function summarise(castId: string, leg: LegName, all: readonly PairDifference[]): Observation[] {
  const sorted = [...all].sort((a, b) => a.pressure - b.pressure);
  const usual = median(sorted.map(({ temperature }) => temperature));
  const values = sorted.map(({ value }) => value);
  const scatter = neighbourScatter(values);
  const size = Math.max(leastInBlock, Math.ceil(sorted.length / blocks));
  const observations: Observation[] = [];
  for (let start = 0; start < sorted.length; start += size) {
    // A block as good as the best of its parts: each weighs by how usual its temperatures are.
    const parts = sorted.slice(start, start + size).map((part) => {
      const stir = part.perKelvin * (part.temperature - usual);
      return { ...part, weight: 1 / (scatter ** 2 + stir ** 2) };
    });
    const weights = parts.reduce((sum, { weight }) => sum + weight, 0);
    const value = parts.reduce((sum, part) => sum + part.weight * part.value, 0);
    const pressure = parts.reduce((sum, part) => sum + part.weight * part.pressure, 0);
    observations.push({
      line: "pair",
      cast: castId,
      terms: [
        { cell: "primary", leg, weight: 1 },
        { cell: "secondary", leg, weight: -1 },
      ],
      value_ppm: value / weights,
      variance_ppm2: 1 / weights + unevenness_ppm ** 2 + disagreement(parts, value / weights),
      pressure_dbar: pressure / weights,
      water: parts[Math.floor(parts.length / 2)]!.water,
    });
  }
  return observations;
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
