// The matched differences of the legs of one cell, as readings along the path: the up leg minus the down leg.
import type { LegName } from "../../cast/cast.js";
import { pathAt } from "../../model/placesOnCast.js";
import { outerHeat, priorTimesUsual } from "../../response/lag/lagPrior.js";
import type { MatchedLegs } from "../../response/match/matchLegs.js";
import type { LegLayers } from "../legs/legLayers.js";
import { legWeights } from "../legs/legWeights.js";
import { timesInFreshWater } from "../legs/upperWater.js";
import type { PathRows } from "./pathRows.js";
import { smoothProfile } from "./smoothProfile.js";

/** Error that does not repeat between the legs: a constant and a slope over the whole cast, ppm (judgement). */
const unrepeatable_ppm = 5;
/**
 * Different water on the up leg adds a constant and a smooth course with pressure; these sizes and roughnesses are equally
 * probable (judgement).
 */
const otherWaters = [
  { ppm: 100, knots: 8 },
  { ppm: 30, knots: 24 },
  { ppm: 150, knots: 24 },
];
/** Neighbours are averaged until there are at most about this many rows (speed). */
const mostRows = 400;

/** @param deepest_dbar of the cast */
export function legRows(
  matched: MatchedLegs,
  { series, lag }: LegLayers,
  deepest_dbar: number,
): PathRows {
  const { index, pressure_dbar, difference_ppm, lag_ppm, outerHeat_ppm, fresh } = series;
  const weights = legWeights(series, lag.timesUsual);
  const n = index.length;
  const together = Math.max(1, Math.ceil(n / mostRows));
  const rows = Math.ceil(n / together);
  const weight = new Float64Array(rows);
  for (let k = 0; k < n; k++) weight[Math.floor(k / together)]! += weights[k]!;
  /** Weighted means of a column of the series. */
  const mean = (column: Float64Array) => {
    const means = new Float64Array(rows);
    for (let k = 0; k < n; k++) means[Math.floor(k / together)]! += weights[k]! * column[k]!;
    for (let row = 0; row < rows; row++) {
      means[row] = weight[row]! > 0 ? means[row]! / weight[row]! : 0;
    }
    return means;
  };
  const meanPath = (leg: LegName, own: Float64Array) => {
    const path = new Float64Array(n);
    for (let k = 0; k < n; k++) path[k] = pathAt(leg, own[index[k]!]!, deepest_dbar);
    return mean(path);
  };
  const pressure = mean(pressure_dbar);
  const one = weight.map((w) => (w > 0 ? 1 : 0));
  const middle = deepest_dbar / 2;
  const times = mean(timesInFreshWater(fresh));
  return {
    value_ppm: mean(difference_ppm),
    weight,
    at_dbar: meanPath("up", matched.pressureUp_dbar),
    less_dbar: meanPath("down", matched.pressureDown_dbar),
    background: [
      { column: mean(lag_ppm), standardDeviation: priorTimesUsual },
      { column: mean(outerHeat_ppm), standardDeviation: outerHeat.share },
      { column: one, standardDeviation: unrepeatable_ppm },
      {
        column: pressure.map((p, row) => p / middle - one[row]!),
        standardDeviation: unrepeatable_ppm,
      },
    ],
    otherWater: otherWaters.map(({ ppm, knots }) => [
      { column: times, standardDeviation: ppm },
      ...smoothProfile(pressure, deepest_dbar, knots, ppm).map((knot) => ({
        ...knot,
        column: knot.column.map((share, row) => share * times[row]!),
      })),
    ]),
  };
}
