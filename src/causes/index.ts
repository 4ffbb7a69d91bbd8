// The bank of causes. Adding one means adding a file and naming it here.

import type { Cause } from "../model/cause.js";
import { calibrationShift } from "./calibrationShift.js";
import { flow } from "./flow.js";
import { fouling } from "./fouling.js";
import { pressureResponse } from "./pressureResponse.js";
import { referenceError } from "./referenceError.js";
import { sound } from "./sound.js";
import { temperatureError } from "./temperatureError.js";
import { thermalLag } from "./thermalLag.js";
import { transient } from "./transient.js";
import { undetermined } from "./undetermined.js";
import { water } from "./water.js";

export const bankOfCauses: readonly Cause[] = [
  sound,
  fouling,
  transient,
  calibrationShift,
  pressureResponse,
  temperatureError,
  thermalLag,
  flow,
  referenceError,
  water,
  undetermined,
];
