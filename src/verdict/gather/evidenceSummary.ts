// The result of each line of evidence alone, for each cell, for comparison with the joint model.
import type { CellName } from "../../cast/cast.js";
import { evidenceLines } from "../../evidence/lines.js";
import type { EvidenceSummary } from "../../model/evidenceSummary.js";
import type { LineResult } from "../../model/observation.js";
import type { CastEvidence } from "./observeCast.js";

/** Summaries of one cast, lines in the order of the model. */
export function evidenceSummaries(evidence: CastEvidence): readonly EvidenceSummary[] {
  const summaries = evidence.shown.map((line) => ({ ...combine(line), line }));
  return summaries
    .flatMap(({ line, n, ppm, standardUncertainty }) => {
      const name = line.line;
      const others = summaries.filter(
        (other) => concernsGain(other.line) && concernSameGain(other.line.cell, line.cell),
      );
      const total = others.reduce((sum, other) => sum + precision(other.standardUncertainty), 0);
      const weighs = total > 0 && concernsGain(line);
      return [
        {
          line: name,
          cell: line.cell,
          n,
          ppm,
          standardUncertainty,
          weight: weighs ? precision(standardUncertainty) / total : 0,
          leftOut: line.leftOut,
          notes: line.notes,
        },
      ];
    })
    .filter(({ n }) => n > 0);
}

/** Weighted mean of a line's observations; the uncertainty excludes the errors that its bottles share. */
function combine({ observations }: LineResult) {
  let weights = 0;
  let sum = 0;
  for (const { value, variance } of observations) {
    weights += 1 / variance;
    sum += value / variance;
  }
  const scale = observations[0]?.unit === "uS/cm" ? ppmPerMicrosiemens : 1;
  return {
    n: observations.length,
    ppm: (scale * sum) / weights,
    standardUncertainty: scale / Math.sqrt(weights),
  };
}

/** The effect of an offset of 1 uS/cm on sea water of SP 35 at 15 degC, 42.914 mS/cm, ppm [UNESCO1983]. */
const ppmPerMicrosiemens = 1e3 / 42.914;

/** Whether the line observes gains: an offset in air is no gain. */
function concernsGain({ line }: LineResult): boolean {
  return evidenceLines.some(({ name, ofGain }) => name === line && ofGain);
}

function precision(standardUncertainty: number): number {
  return Number.isFinite(standardUncertainty) ? 1 / standardUncertainty ** 2 : 0;
}

function concernSameGain(a: CellName | "both", b: CellName | "both"): boolean {
  return a === b || a === "both" || b === "both";
}
