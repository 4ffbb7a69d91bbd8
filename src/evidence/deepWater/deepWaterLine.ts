// The line `deep-water`: the calm deep layer compared with the cruise's own curve, or with a table.
import type { EvidenceLine } from "../evidenceLine.js";
import { type DeepWaterMemory, deepWaterOf, noDeepWaterYet } from "./deepWater.js";
import { type DeepWaterRead, deepWaterRead } from "./deepWaterRead.js";

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
  observe: ({ cells, deepReference }, before, read) => {
    if (read === undefined) return { lines: [], memory: before };
    const { lines, memory, step } = deepWaterOf(read, cells, before, deepReference);
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
