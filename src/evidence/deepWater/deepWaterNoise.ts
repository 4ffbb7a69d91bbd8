// Natural variability of the deep water from station to station: usual values by depth, scaled by the variability of this
// cruise so far.
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";

/** The relation of the deep water of a cast to that of the last cast that reached it. */
export interface DeepWaterStep {
  /** Variance of its change, or of its level if it starts again, ppm squared. */
  readonly walk_ppm2: number;
  readonly restart: boolean;
}

/** The difference of one pair of neighbouring casts. */
export interface DeepDifference {
  /** The difference divided by its usual standard deviation. */
  readonly standardised: number;
  /** Expected part of the square of `standardised` that comes from errors of the readings. */
  readonly errors: number;
}

export interface Position {
  readonly latitude: number;
  readonly longitude: number;
}

/**
 * Standard deviation of salinity at one potential temperature between stations some 50 km apart: 0.006, 0.0025, 0.0009,
 * 0.0004, 0.0003 and 0.0002 at 1250, 1750, ... 3750 dbar, from the neighbours among 45 casts of one line in the southeast
 * Indian Ocean in open data. Elsewhere the cruise's own scale corrects it. The curve was fitted to these numbers (derived).
 */
export function usualStep(pressure_dbar: number): number {
  return 0.0002 + 0.006 * Math.exp(-(pressure_dbar - 1250) / 560);
}

/** The usual value counts as this many differences (judgement). */
const usualCounts = 2;
/** Only this many newest differences are used, because the waters change along the track (judgement). */
const mostDifferences = 30;
/** Lower limit of the variance, as a share of the usual, for any calm cruise (judgement). */
const leastShare = 0.03;

/**
 * Factor on the usual variance: the cruise's own robust scale, combined with the usual while it has few casts. The two are
 * averaged as logarithms, because waters differ by factors and the larger must not dominate.
 */
export function stepScale(differences: readonly DeepDifference[]): number {
  const newest = differences.slice(-mostDifferences);
  if (newest.length === 0) return 1;
  const seen =
    madScale(
      newest.map(({ standardised }) => standardised),
      0,
    ) ** 2;
  const errors = median(newest.map((difference) => difference.errors));
  const own = Math.max(leastShare, seen - errors);
  const share = newest.length / (newest.length + usualCounts);
  return own ** share;
}

/** Distance of usual stations, km; and an equivalent distance for the change with time at one place (judgement). */
const usualDistance_km = 50;
const samePlace_km = 10;
const earthRadius_km = 6371;

/** Factor on the variance, proportional to distance as in a random walk; 1 if a position is unknown. */
export function distanceFactor(from: Position | undefined, to: Position | undefined): number {
  if (from === undefined || to === undefined) return 1;
  return (distance_km(from, to) + samePlace_km) / (usualDistance_km + samePlace_km);
}

/** Great-circle distance on a sphere. */
function distance_km(from: Position, to: Position): number {
  // By definition.
  const radians = Math.PI / 180;
  const [a, b] = [from.latitude * radians, to.latitude * radians];
  const across = (to.longitude - from.longitude) * radians;
  const haversine =
    Math.sin((b - a) / 2) ** 2 + Math.cos(a) * Math.cos(b) * Math.sin(across / 2) ** 2;
  return 2 * earthRadius_km * Math.asin(Math.min(1, Math.sqrt(haversine)));
}
