// Thermal lag: the wall of the cell stores more heat than usual, so that the legs differ in the thermocline, with opposite
// sign by leg. Below it there is no error. Cleaning does not help; check the flow and the lag correction.

import { evidenceSentence, signsInWords } from "./sentences.js";
import { slowResponseCause } from "./slowResponseCause.js";

/** Per cast and cell (judgement: as often as a low flow, of which it is the milder sign). */
const chance = 0.01;
/** Amplitudes of two to five times the usual, sometimes more (judgement). */
const shifts = { lag: { mean: 2, sd: 1.5 } };

export const thermalLag = slowResponseCause("thermal-lag", {
  chance,
  shifts,
  isShownBy: ({ lag }) => lag !== undefined,
  sentence: (grounds) =>
    `The wall of the cell stores more heat than usual. The legs differ only in the thermocline, one salty, the other fresh. ${signsInWords(grounds.signs)}${evidenceSentence(grounds)}`,
  action: "Fit the thermal lag from the two legs. Cleaning does not change it.",
});
