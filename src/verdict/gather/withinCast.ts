// What the scans of one cast say by themselves: the legs against each other, what was taken in and where.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { ThinLayers } from "../../cast/thinLayers.js";
import { leastProbability } from "../../causes/transient.js";
import { type ComparedLegs, compareLegs, compareLegsAt } from "../../evidence/legs/compareLegs.js";
import { legsEvidence } from "../../evidence/legs/legs.js";
import { cellsOnPath } from "../../evidence/path/cellsOnPath.js";
import type { Excursion } from "../../evidence/path/excursion.js";
import { excursionsOnCast } from "../../evidence/path/excursionsOnCast.js";
import { pairOnset } from "../../evidence/path/pairOnset.js";
import type { LineOfEvidence, Onset } from "../../model/observation.js";

export interface WithinCast {
  readonly lines: readonly LineOfEvidence[];
  readonly onsets: Readonly<Partial<Record<CellName, Onset>>>;
  readonly excursions: readonly Excursion[];
  readonly compared: Readonly<Partial<Record<CellName, ComparedLegs>>>;
}

export function withinCast(
  cast: Cast,
  legs: Legs,
  thin: ThinLayers,
  cells: readonly CellName[],
): WithinCast {
  const seen = cells.filter((cell) => cast.columns[cell] !== undefined);
  if (legs.down.length === 0 || legs.up.length === 0) {
    const lines = seen.map((cell) => legsEvidence(cast, legs, cell));
    return { lines, onsets: {}, excursions: [], compared: {} };
  }
  const compared: Partial<Record<CellName, ComparedLegs>> = {};
  for (const cell of seen) compared[cell] = compareLegs(cast, legs, cell, thin);
  const path = cellsOnPath(cast, legs, compared, thin);
  const lines: LineOfEvidence[] = [];
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
  return { lines, onsets, excursions: excursionsOnCast(path, leastProbability.withPair), compared };
}
