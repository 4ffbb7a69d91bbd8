// The line `temperature-pair`: one thermometer against the other, in mK.
import type { EvidenceLine } from "../evidenceLine.js";
import { differencesOf } from "../pair/pairLine.js";
import { temperaturePairEvidence } from "./temperaturePair.js";

export const thermometersLine: EvidenceLine<null> = {
  name: "temperature-pair",
  ofGain: false,
  shown: false,
  sharedErrors: [
    {
      // The difference of two sound thermometers: each is to hold 2 mK [McTaggartEtAl2010], and most hold half of it.
      name: "thermometers",
      unit: "mK",
      prior: { mean: 0, sd: 1.5 },
      passage: { kind: "kept" },
    },
    {
      // What it is besides on one cast: within 0.3 mK on a published cruise of 117 stations [CruiseReports2022].
      name: "thermometersNow",
      unit: "mK",
      prior: { mean: 0, sd: 0 },
      passage: { kind: "redrawn" },
      noise: { usual: 0.25, logSd: 0.5 },
    },
  ],
  begin: null,
  observe: (sources) => ({
    lines:
      sources.cells.length > 1
        ? [temperaturePairEvidence(sources.cast.id, differencesOf(sources))]
        : [],
    memory: null,
  }),
};
