// The spare on the same water as a cell that is alone: read against each other as the cells of a pair are.
import { causes } from "../../causes/index.js";
import { rowOf } from "../../model/designRow.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import { gainOf, type Observation } from "../../model/observation.js";
import { pairDesign, unevenness_ppm } from "../../model/pairDesign.js";
import type { BottleDepth } from "../gather/calmDepths.js";
import { carried, inEachWay, linesAgain, type Planning, type Sampling } from "./samplings.js";

/** A cell alone, and the spare on the same water at one depth: read against each other as a pair is. */
export function spareBeside(
  planning: Planning,
  now: readonly Hypothesis[],
  { pressure_dbar, water }: BottleDepth,
): Sampling {
  const { layout, input } = planning;
  const observation: Observation = {
    line: "pair",
    cast: input.cast,
    // The pair as it is, with the cell alone on one side: the spare is in the pair's own wander.
    design: [
      gainOf(layout.cells[0]!, "up"),
      ...pairDesign("up", { pressure_dbar, water }).filter((term) => "shared" in term),
    ],
    unit: "ppm",
    value: Number.NaN,
    variance: unevenness_ppm ** 2,
    pressure_dbar,
    water,
  };
  // A spare reads as any cell may that begins a cruise; with one cell the pair's own wander has room for it.
  const asSpare = causes.flatMap(({ beginnings }) =>
    beginnings.map(({ prior, cleanSd, filmSd = 0 }) => ({
      prior,
      coefficients: [
        { acts: [{ shared: "pairWander", weight: 1 } as const], sd: Math.hypot(cleanSd, filmSd) },
      ],
    })),
  );
  return {
    branches: inEachWay(layout, carried(planning, now), asSpare),
    rows: [
      ...linesAgain(planning),
      { row: rowOf(layout, observation, {}), variance: observation.variance },
    ],
  };
}
