// Temperature error: the thermometer beside the cell is off, and salinity with it, by more in cold water than in warm,
// for the same conductivity. The cell is sound; the thermometer wants comparison and calibration, not cleaning.

import type { Cause } from "../model/cause.js";
import { cellStory, retold } from "../model/story.js";

/** Thermometers that fail are off by some mK to some hundredths of a degree (judgement). */
const offSd_mK = 8;
/** Rarer than a film by far (judgement). */
const chance = 0.0015;

export const temperatureError: Cause = {
  name: "temperature-error",
  mendedByCleaning: false,
  beginnings: [{ prior: 0.01, cleanSd: 20, pressureSd: 8, thermometerSd: offSd_mK }],
  propose: ({ cells, cast, castsSinceEvidence, story }) =>
    cells.map((cell) => ({
      prior: chance * castsSinceEvidence,
      coefficients: [{ acts: [{ cell, slot: "thermometer", weight: 1 }], sd: offSd_mK }],
      story: retold(story, cell, {
        ...cellStory(story, cell),
        thermometerOff: { cast, when: "before" },
      }),
    })),
};
