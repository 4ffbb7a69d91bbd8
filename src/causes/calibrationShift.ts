// Calibration shift: the cell reads wrong by a factor that is the same in all water, of either sign, and
// cleaning does not move it: an old or mistaken calibration, a worn cell, damaged electrodes.
import { cellStory, retold } from "../track/story.js";
import type { Cause } from "./cause.js";

/** Two healthy cells commonly differ by 0.003 to 0.007 in salinity, 80 to 180 ppm [CalCOFI2016]. */
const shiftSd_ppm = 130;
/** A shift in mid-cruise is rare beside a film (judgement). */
const chance = 0.003;

export const calibrationShift: Cause = {
  name: "calibration-shift",
  mendedByCleaning: false,
  beginnings: [{ prior: 0.28, cleanSd: shiftSd_ppm, pressureSd: 8 }],
  propose: ({ cells, cast, castsSinceEvidence, story }) =>
    cells.map((cell) => ({
      prior: chance * castsSinceEvidence,
      coefficients: [{ acts: [{ cell, slot: "clean", weight: 1 }], sd: shiftSd_ppm }],
      story: retold(story, cell, { ...cellStory(story, cell), shifted: { cast, when: "before" } }),
    })),
};
