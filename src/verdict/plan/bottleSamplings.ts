// Possible bottles on the next cast, and a second measurement of the samples of this cast.
import { causes } from "../../causes/index.js";
import { bottleDesign, secondRunDesign } from "../../evidence/bottles/bottleDesign.js";
import {
  laboratorySalinity,
  mismatchSalinity,
  ordinaryError,
} from "../../evidence/bottles/bottleNoise.js";
import { bottlesLine } from "../../evidence/bottles/bottlesLine.js";
import { unknownScatter_ppm } from "../../evidence/pair/responseDifference.js";
import { designRow } from "../../model/designRow.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import type { Observation } from "../../model/observation.js";
import { depthScatter_ppm, pairDesign } from "../../model/pairDesign.js";
import { ppmPerSalinity } from "../../seawater/ppmPerSalinity.js";
import type { BottleDepth } from "../gather/calmDepths.js";
import type { SampledRow } from "./outlook.js";
import {
  type Planning,
  predicted,
  probable,
  rowsOfSameLines,
  type Sampling,
  type SamplingFault,
  withEachFault,
} from "./samplings.js";

const nothingNew: SamplingFault = { prior: 1, coefficients: [] };

/** The next cast with this many bottles at one stop, measured in a laboratory run of their own. */
export function bottlesOnNextCast(
  planning: Planning,
  now: readonly Hypothesis[],
  depth: BottleDepth,
  count: number,
): Sampling {
  return {
    branches: withEachFault(planning.layout, predicted(planning, now), [
      nothingNew,
      ...doubtsOfBottles(planning, count),
    ]),
    rows: [
      ...rowsOfSameLines(planning),
      ...pairAtClosures(planning, depth, count),
      bottleRow(planning, depth, count),
    ],
  };
}

/** The mean of the bottles of one stop. */
function bottleRow(planning: Planning, depth: BottleDepth, count: number): SampledRow {
  const { layout, input, bottleNoise } = planning;
  const { pressure_dbar, water, salinityGradient_per_dbar } = depth;
  const perSalinity = perSalinityOf(water, pressure_dbar);
  const laboratory = perSalinity * laboratorySalinity;
  const gradient = perSalinity * mismatchSalinity(salinityGradient_per_dbar);
  const sd = ordinaryError({ laboratory, gradient }, bottleNoise);
  const cell = layout.cells[0]!;
  const observation: Observation = {
    line: "bottles",
    cast: input.cast,
    design: bottleDesign(cell, {
      perWake: -perSalinity * salinityGradient_per_dbar,
      gradient,
      // The heat is not known before the cast, and it is small at the stops planned for samples.
      outerHeat_ppm: 0,
    }),
    unit: "ppm",
    value: Number.NaN,
    variance: sd ** 2 / count,
    pressure_dbar,
    water,
  };
  return { row: designRow(layout, observation, {}), variance: observation.variance };
}

/** Without scans, the two cells are compared at bottle closures, as in the pair's own evidence. */
function pairAtClosures(
  { layout, input, scans }: Planning,
  { pressure_dbar, water }: BottleDepth,
  count: number,
): readonly SampledRow[] {
  if (scans || layout.cells.length < 2) return [];
  const observation: Observation = {
    line: "pair",
    cast: input.cast,
    design: pairDesign("up", { pressure_dbar, water }),
    unit: "ppm",
    value: Number.NaN,
    variance: depthScatter_ppm ** 2 + unknownScatter_ppm ** 2 / count,
    pressure_dbar,
    water,
  };
  return [{ row: designRow(layout, observation, {}), variance: observation.variance }];
}

/** Possible faults of the bottles of the next cast: a bad run and, if they are few, a stray bottle. */
function doubtsOfBottles({ layout, input }: Planning, bottles: number): readonly SamplingFault[] {
  const context = {
    cast: input.cast,
    cells: layout.cells,
    lines: new Map([["bottles", bottles]]),
    unchangedErrors: new Set<string>(),
    onsets: {},
    excursions: [],
    response: {},
    castsSinceEvidence: 1,
    inWater_days: 0,
    onDeck_days: 0,
    events: { cells: {} },
  };
  const own = new Set(bottlesLine.sharedErrors.map(({ name }) => name));
  return causes
    .flatMap(({ propose }) => propose(context))
    .filter(({ doubts, coefficients }) => {
      const acts = coefficients.flatMap((coefficient) => coefficient.acts);
      return (
        doubts !== undefined &&
        acts.length > 0 &&
        acts.every((act) => "shared" in act && own.has(act.shared))
      );
    });
}

function perSalinityOf(
  { conductivity_mS_cm, temperature_C }: BottleDepth["water"],
  pressure_dbar: number,
): number {
  return ppmPerSalinity(conductivity_mS_cm, temperature_C, pressure_dbar);
}

/** For a bottle of unknown water, ppm: `laboratorySalinity` at SP 35 (derived). */
const unknownLaboratory_ppm = 25;

/** The samples of this cast measured again in another run; the difference contains the errors of the two runs. */
export function secondRun(
  planning: Planning,
  hypotheses: readonly Hypothesis[],
): Sampling | undefined {
  const { layout, input, noise } = planning;
  const bottles = input.observations.filter(({ line }) => line === "bottles");
  if (bottles.length === 0) return undefined;
  const laboratory = bottles.map(({ water, pressure_dbar }) =>
    water === undefined
      ? unknownLaboratory_ppm
      : perSalinityOf(water, pressure_dbar) * laboratorySalinity,
  );
  // The water in the bottle is the same; each analysis has its own error.
  const mean = laboratory.reduce((sum, sd) => sum + sd ** 2, 0) / laboratory.length ** 2;
  const variance = (noise.errors.run ?? 0) ** 2 + 2 * mean;
  const observation: Observation = {
    line: "bottles",
    cast: input.cast,
    design: secondRunDesign,
    unit: "ppm",
    value: Number.NaN,
    variance,
    pressure_dbar: 0,
  };
  return {
    branches: probable(hypotheses),
    rows: [{ row: designRow(layout, observation, {}), variance }],
  };
}
