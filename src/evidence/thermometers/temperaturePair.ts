// The two thermometers of a package against each other: which cell's salinity a wrong one would throw, and by how much,
// is for the causes to say. In mK.
import type { LineOfEvidence, Observation } from "../../model/observation.js";
import { median } from "../../statistics/robustCentre.js";
import { robustRegression } from "../../statistics/robustRegression.js";
import type { PairDifference, PairDifferences } from "../pair/pairDifferences.js";

/** With fewer places the middle one says little (judgement). */
const fewest = 3;
/** Places at which thermometers see unlike water scatter as if they were this far apart, dbar (judgement). */
const apart_dbar = 0.2;
/** What two healthy thermometers differ by from depth to depth, mK (judgement). */
const unevenness_mK = 0.3;

export function temperaturePairEvidence(cast: string, { byLeg }: PairDifferences): LineOfEvidence {
  return {
    line: "temperature-pair",
    cast,
    cell: "both",
    observations: (["down", "up"] as const).flatMap((leg) => observed(cast, byLeg[leg] ?? [])),
    leftOut: [],
    notes: [],
  };
}

/**
 * The difference where temperature is even: the line of differences against the gradient, at gradient 0. Thermometers that
 * sit some decimetres apart, or answer unlike, differ in proportion to it.
 */
function observed(cast: string, places: readonly PairDifference[]): readonly Observation[] {
  if (places.length < fewest) return [];
  const differences = places.map(({ temperature }) => 1e3 * temperature);
  const gradients = gradientsOf(places);
  const sigma = gradients.map((gradient) => Math.hypot(unevenness_mK, apart_dbar * gradient));
  const fit = robustRegression(
    gradients.map((gradient) => [1, gradient]),
    differences,
    sigma,
  );
  if (fit === undefined) return [];
  // Residuals beyond what was expected make the uncertainty larger [Birge1932].
  const squares = fit.residuals.reduce(
    (sum, residual, k) => sum + Math.min(3, Math.abs(residual / sigma[k]!)) ** 2,
    0,
  );
  const excess = Math.max(1, squares / Math.max(1, places.length - 2));
  return [
    {
      line: "temperature-pair",
      cast,
      design: [
        { slot: { cell: "primary", slot: "thermometer" }, weight: 1 },
        { slot: { cell: "secondary", slot: "thermometer" }, weight: -1 },
        { shared: "thermometers", weight: 1 },
        { shared: "thermometersNow", weight: 1 },
      ],
      unit: "mK",
      value: fit.coefficients[0]!,
      variance: excess * fit.covariance[0]![0]! + unevenness_mK ** 2,
      pressure_dbar: median(places.map(({ pressure }) => pressure)),
    },
  ];
}

/** Of temperature at each place, mK per dbar, from its neighbours. */
function gradientsOf(places: readonly PairDifference[]): readonly number[] {
  const sorted = [...places].sort((a, b) => a.pressure - b.pressure);
  const at = new Map(
    sorted.map((place, k) => {
      const [above, below] = [
        sorted[Math.max(0, k - 1)]!,
        sorted[Math.min(sorted.length - 1, k + 1)]!,
      ];
      const over = below.pressure - above.pressure;
      const change = below.water.temperature_C - above.water.temperature_C;
      return [place, over > 0 ? (1e3 * change) / over : 0];
    }),
  );
  return places.map((place) => at.get(place)!);
}
