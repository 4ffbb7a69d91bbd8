// Thermal lag: the wall of the cell keeps more heat than usual, so that the legs part in the thermocline, with opposite
// sign by leg; below it nothing is off. Cleaning does not move it; the flow and the correction should be looked at.
import type { Cause } from "../model/cause.js";
import { logOddsOfSigns } from "./responseSigns.js";
import { seenOrNot } from "./slowAnswer.js";

const chance = 0.01;
/** Amplitudes of two to four times the usual, and now and then more (judgement). */
const moved = { lag: { mean: 1.5, sd: 0.9 } };

export const thermalLag: Cause = {
  name: "thermal-lag",
  mendedByCleaning: false,
  beginnings: [],
  propose: ({ cells, response }) =>
    cells.flatMap((cell) => {
      const signs = response[cell];
      if (signs?.lag === undefined) return [];
      return seenOrNot(cell, {
        prior: chance,
        coefficients: [],
        logResponse: logOddsOfSigns(signs, moved),
        doubt: { cause: "thermal-lag", cell },
      });
    }),
};
