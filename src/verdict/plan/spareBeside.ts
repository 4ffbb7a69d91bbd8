// The spare cell in the same water as a single cell, compared like the cells of a pair.
import { causes } from "../../causes/index.js";
import { designRow } from "../../model/designRow.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import { gainOf, type Observation } from "../../model/observation.js";
import { depthScatter_ppm, pairDesign } from "../../model/pairDesign.js";
import type { BottleDepth } from "../gather/calmDepths.js";
import {
  type Planning,
  predicted,
  rowsOfSameLines,
  type Sampling,
  withEachFault,
} from "./samplings.js";

/** A single cell and the spare in the same water at one depth, compared like a pair. */
export function spareBeside(
  planning: Planning,
  now: readonly Hypothesis[],
  { pressure_dbar, water }: BottleDepth,
): Sampling {
  const { layout, input } = planning;
  const observation: Observation = {
    line: "pair",
    cast: input.cast,
    // The usual pair design, with the single cell on one side; the `pairScatter` error includes that of the spare.
    design: [
      gainOf(layout.cells[0]!, "up"),
      ...pairDesign("up", { pressure_dbar, water }).filter((term) => "shared" in term),
    ],
    unit: "ppm",
    value: Number.NaN,
    variance: depthScatter_ppm ** 2,
    pressure_dbar,
    water,
  };
  // A spare has the errors of any cell at the start of a cruise. The slot `pairScatter`, unused with a single cell, holds them.
  const asSpare = causes.flatMap(({ initialStates = [] }) =>
    initialStates.map(({ prior, cleanSd, filmSd = 0 }) => ({
      prior,
      coefficients: [
        { acts: [{ shared: "pairScatter", weight: 1 } as const], sd: Math.hypot(cleanSd, filmSd) },
      ],
    })),
  );
  return {
    branches: withEachFault(layout, predicted(planning, now), asSpare),
    rows: [
      ...rowsOfSameLines(planning),
      { row: designRow(layout, observation, {}), variance: observation.variance },
    ],
  };
}
