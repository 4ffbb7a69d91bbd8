// The line `temperature-pair`: one thermometer minus the other, in mK.
import type { LineResult } from "../../model/observation.js";
import type { EvidenceLine } from "../evidenceLine.js";
import { atClosures, differencesOf } from "../pair/pairLine.js";
import { temperaturePairEvidence } from "./temperaturePair.js";

export const thermometersLine: EvidenceLine<null, LineResult | undefined> = {
  name: "temperature-pair",
  ofGain: false,
  shown: false,
  sharedErrors: [
    {
      // Change of the difference of two thermometers from the bath to the sea, beside the error of each (judgement).
      name: "thermometers",
      unit: "mK",
      prior: { sd: 0.3 },
      evolution: { kind: "constant" },
    },
    {
      // Additional difference on one cast: within 0.3 mK on a published cruise of 117 stations [CruiseReports2022].
      name: "thermometersOfCast",
      unit: "mK",
      evolution: { kind: "independent" },
      noise: { usual: 0.25, logSd: 0.5 },
    },
  ],
  begin: null,
  read: (sources) => {
    const differences = differencesOf(sources);
    return differences && temperaturePairEvidence(sources.cast.id, differences);
  },
  observe: ({ cast, cells, bottles }, _memory, read) => ({
    lines: cells.length > 1 ? [read ?? temperaturePairEvidence(cast.id, atClosures(bottles))] : [],
    memory: null,
  }),
};
