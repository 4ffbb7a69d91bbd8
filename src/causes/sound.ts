// Sound: the cell reads according to its calibration, and nothing new has happened.
import type { Cause } from "../model/cause.js";
import { goodCalibration } from "./limits.js";
import { evidenceSentence } from "./sentences.js";

export const sound: Cause<"sound"> = {
  name: "sound",
  isCorrectedOnly: true,
  // Most cells of a cruise are sound (judgement).
  initialStates: [{ prior: 0.65, ...goodCalibration }],
  propose: () => [{ prior: 1, coefficients: [] }],
  matches: () => true,
  sentence: (grounds) => `The cell has no film or calibration shift. ${evidenceSentence(grounds)}`,
  action: "",
};
