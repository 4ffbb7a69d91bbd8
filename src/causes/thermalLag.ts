// Thermal lag: the wall of the cell keeps more heat than usual, so that the legs part in the thermocline, with opposite
// sign by leg; below it nothing is off. Cleaning does not move it; the flow and the correction should be looked at.

import type { Cause } from "../model/cause.js";
import { logOddsOfSigns } from "../model/responseSigns.js";
import { resting, signsInWords } from "./sentences.js";
import { slowAnswer } from "./slowAnswer.js";

/** On a cast, of a cell (judgement: as often as a low flow, of which it is the milder sign). */
const chance = 0.01;
/** Amplitudes of two to four times the usual, and now and then more (judgement). */
const moved = { lag: { mean: 1.5, sd: 0.9 } };

export const thermalLag: Cause<"thermal-lag"> = {
  name: "thermal-lag",
  mendedByCleaning: false,
  passesByItself: true,
  leftAndCorrected: false,
  beginnings: [],
  propose: ({ cells, response }) =>
    cells.flatMap((cell) => {
      const signs = response[cell];
      if (signs?.lag === undefined) return [];
      return slowAnswer("thermal-lag", cell, chance, logOddsOfSigns(signs, moved));
    }),
  names: ({ doubt }) => doubt?.cause === "thermal-lag",
  sentence: (grounds) =>
    `The legs differ in the thermocline only, with opposite sign by leg${signsInWords(grounds.signs)}: the wall of the cell keeps more heat than usual. ${resting(grounds)}`,
  action:
    "Rinse the cell as usual: fit the thermal lag from the two legs; cleaning does not change it.",
};
