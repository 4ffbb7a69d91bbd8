// The two cells compared at bottle closures: the water stands, so the effects of thermal lag and delay on the pair are
// over. The sample itself cancels in the difference, and so do its errors.
import type { Observation } from "../../model/observation.js";
import { depthScatter_ppm, pairDesign } from "../../model/pairDesign.js";
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";
import type { CellComparisons } from "./bottleResiduals.js";

/** With fewer closures the scatter of their differences is unknown (judgement). */
const fewest = 3;
/**
 * If a difference is this many standard deviations from the median, a cell was off at that closure (common practice,
 * no source).
 */
const stray = 4;

/** One observation: the difference of the two cells over the closures of a cast. */
export function atClosures(
  cast: string,
  bottles: readonly CellComparisons[],
): readonly Observation[] {
  const differences = bottles.flatMap((one) => {
    const [first, second] = (["primary", "secondary"] as const).map((cell) =>
      one.find((residual) => residual.cell === cell),
    );
    if (first === undefined || second === undefined) return [];
    const reading = Math.hypot(first.reading, second.reading);
    return [{ ppm: first.residual - second.residual, reading, first }];
  });
  if (differences.length < fewest) return [];
  const middle = median(differences.map(({ ppm }) => ppm));
  const scatter = madScale(
    differences.map(({ ppm }) => ppm),
    middle,
  );
  const errors = differences.map(({ reading }) => Math.hypot(reading, scatter, depthScatter_ppm));
  const kept = differences.flatMap((one, i) =>
    Math.abs(one.ppm - middle) <= stray * errors[i]! ? [{ ...one, error: errors[i]! }] : [],
  );
  if (kept.length < fewest) return [];
  const precision = kept.reduce((sum, { error }) => sum + 1 / error ** 2, 0);
  const mean = (value: (one: (typeof kept)[number]) => number) =>
    kept.reduce((sum, one) => sum + value(one) / one.error ** 2, 0) / precision;
  const pressure_dbar = mean(({ first }) => first.bottle.pressure_dbar);
  const nearest = kept.reduce((a, b) =>
    Math.abs(b.first.bottle.pressure_dbar - pressure_dbar) <
    Math.abs(a.first.bottle.pressure_dbar - pressure_dbar)
      ? b
      : a,
  );
  const { water } = nearest.first;
  return [
    {
      line: "pair-at-closures",
      cast,
      design: pairDesign("up", { pressure_dbar, water }),
      unit: "ppm",
      value: mean(({ ppm }) => ppm),
      variance: 1 / precision + depthScatter_ppm ** 2,
      pressure_dbar,
      water,
    },
  ];
}
