// The causes, in the order of their naming tests: first doubts about the whole cast, then faults of the cell itself, then
// doubts about the references, the water or the response; sound is the rest. A new cause is a file and a line here.
import type { Cause } from "../model/cause.js";
import { calibrationShift } from "./calibrationShift.js";
import { flow } from "./flow.js";
import { fouling } from "./fouling.js";
import { offset } from "./offset.js";
import { pressureResponse } from "./pressureResponse.js";
import { referenceError } from "./referenceError.js";
import { sound } from "./sound.js";
import { temperatureError } from "./temperatureError.js";
import { thermalLag } from "./thermalLag.js";
import { transient } from "./transient.js";
import { undetermined } from "./undetermined.js";
import { water } from "./water.js";

const all = [
  undetermined,
  fouling,
  transient,
  calibrationShift,
  pressureResponse,
  temperatureError,
  offset,
  thermalLag,
  flow,
  referenceError,
  water,
  sound,
] as const;

export type CauseName = (typeof all)[number]["name"];
export const causes: readonly Cause<CauseName>[] = all;
export const causeNames = all.map(({ name }) => name);

/** @throws RangeError if there is no such cause */
export function causeNamed(name: string): Cause<CauseName> {
  const found = causes.find((cause) => cause.name === name);
  if (found === undefined) throw new RangeError(`there is no cause ${name}`);
  return found;
}
