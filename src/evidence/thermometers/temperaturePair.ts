// One thermometer of a package minus the other, in mK. The causes decide which cell's salinity is wrong, and by how much.
import type { LineResult, Observation } from "../../model/observation.js";
import { median } from "../../statistics/robustCentre.js";
import { robustRegression } from "../../statistics/robustRegression.js";
import type { PairDifference } from "../pair/pairDifference.js";
import type { PairDifferences } from "../pair/pairDifferences.js";

/** With fewer places the median carries little information (judgement). */
const fewest = 3;
/** If thermometers see different water, they scatter as if they were this far apart, dbar (judgement). */
const apart_dbar = 0.2;
/** Difference of two healthy thermometers from depth to depth, mK (judgement). */
const depthScatter_mK = 0.3;

/** The two thermometers against each other as evidence on one cast, in mK. */
export function temperaturePairEvidence(cast: string, { byLeg }: PairDifferences): LineResult {
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
 * The difference at zero gradient: the intercept of a line of differences against the gradient. Thermometers some
 * decimetres apart, or with different response times, differ in proportion to the gradient.
 */
function observed(cast: string, places: readonly PairDifference[]): readonly Observation[] {
  if (places.length < fewest) return [];
  const differences = places.map(({ temperature }) => 1e3 * temperature);
  const gradients = gradientsOf(places);
  const sigma = gradients.map((gradient) => Math.hypot(depthScatter_mK, apart_dbar * gradient));
  const fit = robustRegression(
    gradients.map((gradient) => [1, gradient]),
    differences,
    sigma,
  );
  if (fit === undefined) return [];
  // Larger residuals than expected increase the uncertainty [Birge1932].
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
        { shared: "thermometersOfCast", weight: 1 },
      ],
      unit: "mK",
      value: fit.coefficients[0]!,
      variance: excess * fit.covariance[0]![0]! + depthScatter_mK ** 2,
      pressure_dbar: median(places.map(({ pressure }) => pressure)),
    },
  ];
}

/** Gradient of temperature at each place, mK per dbar, from its neighbours. */
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
