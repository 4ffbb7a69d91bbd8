// Thermal lag: the wall of the cell stores more heat than usual, so that the legs differ in the thermocline, with opposite
// sign by leg. Below it there is no error. Cleaning does not help; check the flow and the lag correction.

import { resting, signsInWords } from "./sentences.js";
import { slowCause } from "./slowCause.js";

/** Per cast and cell (judgement: as often as a low flow, of which it is the milder sign). */
const chance = 0.01;
/** Amplitudes of two to four times the usual, sometimes more (judgement). */
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
