// The line `legs`: the up leg against the down leg at the same water observes what changed within the cast.
import type { LineOfEvidence } from "../../model/observation.js";
import type { EvidenceLine } from "../evidenceLine.js";

export const legsLine: EvidenceLine<null, readonly LineOfEvidence[]> = {
  name: "legs",
  ofGain: true,
  shown: true,
  sharedErrors: [
    {
      // What the water of the up leg had that that of the down leg had not: only where a cause proposes it.
      name: "legsWater",
      unit: "ppm",
      prior: { mean: 0, sd: 0 },
      passage: { kind: "redrawn", variance: 0 },
    },
  ],
  begin: null,
  read: ({ scans }) => scans.within.lines,
  observe: (_sources, _memory, lines = []) => ({ lines, memory: null }),
};
