// The results from the scans of one cast alone: the comparison of the legs, and excursions.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import type { LineResult, Onset } from "../../model/observation.js";
import type { TransientCandidate } from "../../model/placesOnCast.js";
import { type ComparedLegs, compareLegs, compareLegsAt } from "../legs/compareLegs.js";
import { legsEvidence } from "../legs/legs.js";
import { cellsOnPath } from "./cellsOnPath.js";
import type { Excursion as FoundExcursion } from "./excursion.js";
import { excursionsOnCast } from "./excursionsOnCast.js";
import { pairOnset } from "./pairOnset.js";

/** Excursions less probable than this are ignored (judgement: a verdict changes at 0.1). */
const leastProbability = 0.01;

export interface WithinCast {
  readonly lines: readonly LineResult[];
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  readonly excursions: readonly TransientCandidate[];
  readonly compared: Readonly<Partial<Record<CellName, ComparedLegs>>>;
}

export function withinCast(
  cast: Cast,
  legs: Legs,
  thin: ThinLayers,
  cells: readonly CellName[],
): WithinCast {
  const seen = cells.filter((cell) => cast.columns[cell] !== undefined);
  const hasBothLegs = legs.down.length > 0 && legs.up.length > 0;
  const compared: Partial<Record<CellName, ComparedLegs>> = {};
  if (hasBothLegs) for (const cell of seen) compared[cell] = compareLegs(cast, legs, cell, thin);
  const path = cellsOnPath(cast, legs, compared, thin);
  const lines: LineResult[] = [];
  const onsets: Partial<Record<CellName, Onset>> = {};
  for (const cell of seen) {
    const [own, other] = [path[cell], path[cell === "primary" ? "secondary" : "primary"]];
    const placed = own && other && pairOnset(cell, own, other);
    const inLegs = compared[cell];
    if (placed && inLegs) compared[cell] = compareLegsAt(cast, legs, cell, inLegs, placed, thin);
    const line = legsEvidence(cast, legs, cell, compared[cell]);
    lines.push(line);
    const onset = placed ?? line.onset;
    if (onset !== undefined) onsets[cell] = onset;
  }
  return {
    lines,
    onsets,
    excursions: excursionsOnCast(path, leastProbability).map((one) =>
      asProposed(one, Object.keys(path).length > 1),
    ),
    compared,
  };
}

function asProposed(excursion: FoundExcursion, withPair: boolean): TransientCandidate {
  const { cell, leg, onset_dbar, recovery_dbar, atOnce, deepest_dbar } = excursion;
  const { ppm, probability, logAgainstStep } = excursion;
  return {
    cell,
    course: {
      cell,
      leg,
      onset_dbar: onset_dbar.value,
      recovery_dbar: recovery_dbar.value,
      ...(atOnce ? { atOnce } : {}),
      deepest_dbar,
    },
    ppm: ppm.value,
    probability,
    logAgainstStep,
    withPair,
  };
}
