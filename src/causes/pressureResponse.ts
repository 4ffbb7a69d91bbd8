// Pressure response: an error that grows with pressure, for example if the cell deforms differently from the assumption of
// its calibration. Mostly it is there from the start. Cleaning does not change it.
import type { Cause } from "../model/cause.js";
import { withEvent } from "../model/eventHistory.js";
import { lastingStep, onsetOfStep } from "./lastingStep.js";
import { goodCalibration, leastPressureResponse } from "./limits.js";
import { evidenceSentence, gainWords, signed } from "./sentences.js";

/**
 * Fitted terms of up to 2.7e-6 mS/cm per dbar are 80 ppm per 1000 dbar in deep water [CruiseReports2021]. Standard deviation, ppm
 * per 1000 dbar.
 */
const sd = 60;
/** Chance per cast that it comes in mid-cruise, as by a crack or a loose seal (judgement). */
const chance = 0.0003;

const name = "pressure-response";

export const pressureResponse: Cause<"pressure-response"> = {
  name,
  isCorrectedOnly: true,
  initialStates: [{ prior: 0.05, ...goodCalibration, pressureSd: sd }],
  initialEvents: (since) => withEvent({}, name, since),
  propose: (context) => lastingStep(context, name, { slot: "pressure", chance, sd }),
  matches: ({ mean }) => Math.abs(mean("pressure")) > leastPressureResponse,
  since: (events) => onsetOfStep(events, name),
  sentence: (grounds) => {
    const { value, standardUncertainty } = grounds.pressure;
    return (
      `The error grows by ${signed(value)} ± ${standardUncertainty.toFixed(0)} ppm per 1000 dbar. ` +
      `At the surface it is ${gainWords(grounds.up)}. ${evidenceSentence(grounds)}`
    );
  },
  action:
    "More cleaning does not help. Close bottles at several depths and fit a pressure term. Have the cell calibrated.",
};
