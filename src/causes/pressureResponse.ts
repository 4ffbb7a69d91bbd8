// Pressure response: an error that grows with pressure, as when the cell is squeezed otherwise than the
// calibration supposes. It is there from the start and cleaning does not move it.
import type { Cause } from "../model/cause.js";

export const pressureResponse: Cause = {
  name: "pressure-response",
  mendedByCleaning: false,
  // Fitted terms of up to 2.7e-6 mS/cm per dbar are 80 ppm per 1000 dbar in deep water [CruiseReports2021].
  beginnings: [{ prior: 0.05, cleanSd: 20, pressureSd: 60 }],
  propose: () => [],
};
