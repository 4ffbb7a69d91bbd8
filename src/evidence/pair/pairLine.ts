// The line `pair`: one cell minus the other observes the difference of their gains.
import type { Bottle } from "../../cast/bottle.js";
import type { LineResult } from "../../model/observation.js";
import { outerHeat } from "../../response/lag/lagPrior.js";
import type { EvidenceLine, ScanSources } from "../evidenceLine.js";
import { pairEvidence } from "./pair.js";
import { type PairDifferences, pairDifferences } from "./pairDifferences.js";

export const pairLine: EvidenceLine<null, LineResult | undefined> = {
  name: "pair",
  ofGain: true,
  shown: true,
  sharedErrors: [
    {
      // Remaining difference of the two pairs of sensors on one cast, beside that of the thermometers (judgement).
      name: "pairScatter",
      unit: "ppm",
      evolution: { kind: "independent" },
      noise: { usual: 5, logSd: 0.5 },
    },
    {
      // Lag of the first cell minus that of the second, as a factor of the usual: cells of one make differ by a third or so
      // [MorisonEtAl1994], a clogged line has three to five times the usual (judgement).
      name: "pairLag",
      unit: "times",
      prior: { sd: 1.5 },
      evolution: { kind: "random-walk", variance: 0.1 ** 2 },
    },
    {
      // Heat in the outer parts of the first cell minus that of the second, as a factor of the usual lag of the wall
      // (judgement).
      name: "pairOuterHeat",
      unit: "times",
      prior: { sd: outerHeat.share },
      evolution: { kind: "random-walk", variance: 0.1 ** 2 },
    },
    {
      // Delay of the first cell minus that of the second, dbar of the path: the lines differ in length and flow (judgement).
      name: "pairDelay",
      unit: "dbar",
      prior: { sd: 0.2 },
      evolution: { kind: "random-walk", variance: 0.1 ** 2 },
    },
    {
      // Height of the first intake above the second, dbar: they are fitted a decimetre or two apart (judgement).
      name: "pairHeight",
      unit: "dbar",
      prior: { sd: 0.2 },
      evolution: { kind: "constant" },
    },
    {
      // Each sound cell is slightly non-linear, and stays so from cast to cast. Between warm and cold water this looks like a
      // difference of the offsets of the two cells, uS/cm (judgement: 7 ppm between 50 and 32 mS/cm).
      name: "pairNonlinearity",
      unit: "uS/cm",
      prior: { sd: 0.6 },
      evolution: { kind: "constant" },
    },
  ],
  begin: null,
  read: (sources) => {
    const differences = differencesOf(sources);
    return differences && pairEvidence(sources.cast.id, differences);
  },
  observe: ({ cast, cells, bottles }, _memory, read) => ({
    lines: cells.length > 1 ? [read ?? pairEvidence(cast.id, atClosures(bottles))] : [],
    memory: null,
  }),
};

/** Both cells in the same layers, kept separate above and below an onset; undefined if the scans contain one cell only. */
export function differencesOf({ cells, scans }: ScanSources): PairDifferences | undefined {
  const { data, legs, thin, within } = scans;
  if (cells.length < 2 || data.columns.secondary === undefined) return undefined;
  return pairDifferences(data, legs, [], thin, Object.values(within.onsets));
}

/** Both cells as read beside the bottles. */
export function atClosures(bottles: readonly Bottle[]): PairDifferences {
  return pairDifferences(undefined, undefined, bottles);
}
