// The legs' matched differences of one cell as readings along the path: the up leg's counts, the down leg's is
// taken off.
import type { LegLayers } from "./legLayers.js";
import { legWeights } from "./legWeights.js";
import type { MatchedLegs } from "./matchLegs.js";
import { type PathRows, pathAt } from "./pathRows.js";
import { smoothCourse } from "./smoothCourse.js";

/** Before the cast is looked at: lag, in units of the usual. */
const priorLag = 2;
/** What does not repeat between the legs: a constant and a slope over the whole cast, ppm (our judgement). */
const unrepeatable_ppm = 5;
/** Another water on the way up differs evenly and in a course with pressure, one as probable as the next (judgement). */
const otherWaters = [
  { ppm: 100, knots: 8 },
  { ppm: 30, knots: 24 },
  { ppm: 150, knots: 24 },
];
/** At most about this many rows: neighbours are put together. */
const mostRows = 400;

/** @param deepest_dbar of the cast */
export function legRows(
  matched: MatchedLegs,
  { series, lag }: LegLayers,
  deepest_dbar: number,
): PathRows {
  const { index, pressure_dbar, difference_ppm, lag_ppm } = series;
  const weights = legWeights(series, lag.amplitude);
  const n = index.length;
  const together = Math.max(1, Math.ceil(n / mostRows));
  const rows = Math.ceil(n / together);
  const weight = new Float64Array(rows);
  for (let k = 0; k < n; k++) weight[Math.floor(k / together)]! += weights[k]!;
  const mean = (value: (k: number) => number) => {
    const column = new Float64Array(rows);
    for (let k = 0; k < n; k++) column[Math.floor(k / together)]! += weights[k]! * value(k);
    return column.map((sum, row) => (weight[row]! > 0 ? sum / weight[row]! : 0));
  };
  const middle = deepest_dbar / 2;
  return {
    value_ppm: mean((k) => difference_ppm[k]!),
    weight,
    at_dbar: mean((k) => pathAt("up", matched.pressureUp_dbar[index[k]!]!, deepest_dbar)),
    less_dbar: mean((k) => pathAt("down", matched.pressureDown_dbar[index[k]!]!, deepest_dbar)),
    background: [
      { column: mean((k) => lag_ppm[k]!), standardDeviation: priorLag },
      { column: mean(() => 1), standardDeviation: unrepeatable_ppm },
      { column: mean((k) => pressure_dbar[k]! / middle - 1), standardDeviation: unrepeatable_ppm },
    ],
    otherWater: otherWaters.map(({ ppm, knots }) => [
      { column: mean(() => 1), standardDeviation: ppm },
      ...smoothCourse(
        mean((k) => pressure_dbar[k]!),
        deepest_dbar,
        knots,
        ppm,
      ),
    ]),
  };
}
