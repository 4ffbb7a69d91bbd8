// Temperature error: the thermometer of the cell is off, and so is salinity; for the same conductivity the error is larger
// in cold water than in warm. The cell is sound. The thermometer needs comparison and calibration, not cleaning.

import type { Cause } from "../model/cause.js";
import { withEvent } from "../model/eventHistory.js";
import { lastingStep, onsetOfStep } from "./lastingStep.js";
import { goodCalibration, leastThermometer_mK } from "./limits.js";
import { evidenceSentence } from "./sentences.js";

/** Thermometers that fail are off by some mK to some hundredths of a degree (judgement). */
const offSd_mK = 8;
/** Much rarer than a film (judgement). */
const chance = 0.0007;

/** Its name in the event history of a cell. */
const name = "temperature-error";

export const temperatureError: Cause<"temperature-error"> = {
  name,
  // One thermometer in two hundred is off from the start (judgement).
  initialStates: [{ prior: 0.005, ...goodCalibration, thermometerSd: offSd_mK }],
  initialEvents: (since) => withEvent({}, name, since),
  propose: (context) => lastingStep(context, name, { slot: "thermometer", chance, sd: offSd_mK }),
  matches: ({ mean }) => Math.abs(mean("thermometer")) > leastThermometer_mK,
  since: (events) => onsetOfStep(events, name),
  sentence: (grounds) => {
    const { value, standardUncertainty } = grounds.thermometer;
    return (
      `The thermometer beside the cell reads ${Math.abs(value).toFixed(1)} ± ${standardUncertainty.toFixed(1)} mK too ` +
      `${value > 0 ? "warm" : "cold"}. So salinity is off, but the cell is not. ${evidenceSentence(grounds)}`
    );
  },
  action:
    "Compare the two thermometers in deep, even water. If they differ, fit the spare thermometer.",
};
