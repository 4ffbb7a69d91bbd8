// The line `pair`: one cell against the other observes the difference of their gains.
import type { CastSources, EvidenceLine } from "../evidenceLine.js";
import { pairEvidence } from "./pair.js";
import { pairDifferences } from "./pairDifferences.js";

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
    {
      // By how many times the usual the thermal lag of the first cell is more than that of the second: cells of one make
      // differ by a third or so [MorisonEtAl1994], a clogged line has three to five times the usual (judgement).
      name: "pairLag",
      unit: "times",
      prior: { mean: 0, sd: 1.5 },
      passage: { kind: "walked", variance: 0.1 ** 2 },
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
