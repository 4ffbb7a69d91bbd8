// Pressure response: an error that grows with pressure, for example if the cell deforms differently from the assumption of
// its calibration. It is there from the start and cleaning does not change it.
import type { Cause } from "../model/cause.js";
import { withEvent } from "../model/eventHistory.js";
import { goodCalibration, leastPressureResponse } from "./limits.js";
import { evidenceSentence, gainWords, signed } from "./sentences.js";

export const pressureResponse: Cause<"pressure-response"> = {
  name: "pressure-response",
  removedByCleaning: false,
  isTemporary: false,
  isCorrectedOnly: true,
  // Fitted terms of up to 2.7e-6 mS/cm per dbar are 80 ppm per 1000 dbar in deep water [CruiseReports2021].
  initialStates: [{ prior: 0.05, ...goodCalibration, pressureSd: 60 }],
  initialEvents: (since) => withEvent({}, "pressure-response", since),
  propose: () => [],
  matches: ({ mean }) => Math.abs(mean("pressure")) > leastPressureResponse,
  sentence: (grounds) => {
    const { value, standardUncertainty } = grounds.pressure;
    return (
      `The error grows by ${signed(value)} ± ${standardUncertainty.toFixed(0)} ppm per 1000 dbar. ` +
      `At the surface it is ${gainWords(grounds.up)}. ${evidenceSentence(grounds)}`
    );
  },
  action:
    "Rinse the cell as usual. More cleaning does not help. Close bottles at several depths and fit a pressure term. Have the cell calibrated.",
};
