// Sound: the cell reads what its calibration says, and nothing new has happened.
import type { Cause } from "../model/cause.js";

export const sound: Cause = {
  name: "sound",
  mendedByCleaning: false,
  // A fresh calibration holds the WOCE accuracy of 0.002, 51 ppm, with some margin: 20 ppm. Sound cells answer to
  // pressure by up to about 1e-6 mS/cm per dbar, which is 30 ppm per 1000 dbar; most by much less
  // [CruiseReports2021].
  beginnings: [{ prior: 0.65, cleanSd: 20, pressureSd: 8 }],
  propose: () => [{ prior: 1, coefficients: [] }],
};
