// The line `pair`: one cell against the other observes the difference of their gains.
import type { CastSources, EvidenceLine } from "../evidenceLine.js";
import { pairDifferences, pairEvidence } from "./pair.js";

export const pairLine: EvidenceLine<null> = {
  name: "pair",
  ofGain: true,
  shown: true,
  sharedErrors: [
    {
      // One pair of sensors against the other on one cast: what is left of it beside the thermometers (judgement).
      name: "pairWander",
      unit: "ppm",
      prior: { mean: 0, sd: 0 },
      passage: { kind: "redrawn" },
      noise: { usual: 5, logSd: 0.5 },
    },
  ],
  begin: null,
  observe: (sources) => ({
    lines: sources.cells.length > 1 ? [pairEvidence(sources.cast.id, differencesOf(sources))] : [],
    memory: null,
  }),
};

/** Both cells at the same places, kept apart above and below where something came. */
export function differencesOf({ scans, bottles }: CastSources) {
  const onsets = Object.values(scans?.within.onsets ?? {});
  return pairDifferences(scans?.data, scans?.legs, bottles, scans?.thin, onsets);
}
