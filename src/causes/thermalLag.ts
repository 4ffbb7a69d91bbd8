// Thermal lag: the wall of the cell keeps more heat than usual, so that the legs part in the thermocline, with opposite
// sign by leg; below it nothing is off. Cleaning does not move it; the flow and the correction should be looked at.

import { resting, signsInWords } from "./sentences.js";
import { slowCause } from "./slowCause.js";

/** On a cast, of a cell (judgement: as often as a low flow, of which it is the milder sign). */
const chance = 0.01;
/** Amplitudes of two to four times the usual, and now and then more (judgement). */
const moved = { lag: { mean: 1.5, sd: 0.9 } };

export const thermalLag = slowCause("thermal-lag", {
  chance,
  moved,
  seenBy: ({ lag }) => lag !== undefined,
  sentence: (grounds) =>
    `The wall of the cell keeps more heat than usual. The legs differ in the thermocline only, with opposite sign. ${signsInWords(grounds.signs)}${resting(grounds)}`,
  action:
    "Rinse the cell as usual. Fit the thermal lag from the two legs. Cleaning does not change it.",
});
