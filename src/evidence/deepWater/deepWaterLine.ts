// The line `deep-water`: the calm deep layer compared with the cruise's own curve, or with a table.
import type { CellName } from "../../cast/cast.js";
import { gainTerms, type LineResult } from "../../model/observation.js";
import type { EvidenceLine } from "../evidenceLine.js";
import { type DeepWaterMemory, deepWaterOf, noDeepWaterYet } from "./deepWater.js";
import { type DeepWaterRead, deepWaterRead } from "./deepWaterRead.js";
import type { GainByBottles } from "./deepWaterStep.js";

/**
 * Along a section deep water continues to change in the same direction. So over several stations it changes by more than
 * independent steps would, and their variance is multiplied by 3 (judgement).
 */
const persistence = 3;

export const deepWaterLine: EvidenceLine<DeepWaterMemory, DeepWaterRead> = {
  name: "deep-water",
  ofGain: true,
  shown: true,
  sharedErrors: [
    {
      // The difference of the calm deep water here from the reference curve.
      name: "deepWater",
      unit: "ppm",
      evolution: { kind: "constant" },
    },
  ],
  begin: noDeepWaterYet,
  read: ({ scans, cells }) => deepWaterRead(scans.data, cells, scans.thin),
  observe: ({ cells, deepReference, found }, before, read) => {
    if (read === undefined) return { lines: [], memory: before };
    const gain = gainByBottles(found, cells[0]);
    const { lines, memory, step } = deepWaterOf(read, cells, before, deepReference, gain);
    const evolution = step && {
      deepWater: step.restart
        ? ({ kind: "independent", variance: step.walk_ppm2 } as const)
        : ({ kind: "random-walk", variance: persistence * step.walk_ppm2 } as const),
    };
    return {
      // Compared with the first cell, as bottles are: the pair relates the other cell to it.
      lines: lines.filter(({ cell }) => cell === cells[0]),
      memory,
      ...(evolution === undefined ? {} : { evolutions: evolution }),
    };
  },
};

/** The mean of the bottles of a cell, if there are any. */
function gainByBottles(found: readonly LineResult[], cell?: CellName): GainByBottles | undefined {
  const own = found
    .flatMap(({ observations }) => observations)
    .filter((each) => each.line === "bottles" && gainTerms(each)[0]?.gain.cell === cell);
  const weights = own.reduce((sum, { variance }) => sum + 1 / variance, 0);
  if (!(weights > 0)) return undefined;
  return {
    ppm: own.reduce((sum, { value, variance }) => sum + value / variance, 0) / weights,
    variance_ppm2: 1 / weights,
  };
}
