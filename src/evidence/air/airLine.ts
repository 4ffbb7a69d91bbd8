// The line `air-zero`: a cell read in air observes its additive offset, not its gain.
import type { EvidenceLine } from "../evidenceLine.js";
import { airZeroEvidence } from "./airZero.js";

export const airLine: EvidenceLine<null> = {
  name: "air-zero",
  ofGain: false,
  shown: true,
  sharedErrors: [],
  begin: null,
  observe: ({ cast, cells, scans, entries }) => ({
    lines: cells
      .map((cell) => airZeroEvidence(cast.id, cell, scans?.data, entries))
      .filter(({ observations, leftOut }) => observations.length + leftOut.length > 0),
    memory: null,
  }),
};
