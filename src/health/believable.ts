// Whether a reading of a sensor is possible.
import { believableLimits, isBelievable } from "../cast/believableReading.js";
import type { Sensor } from "./finding.js";

const limits = {
  conductivity: believableLimits.conductivity_mS_cm,
  temperature: believableLimits.temperature_C,
  pressure: believableLimits.pressure_dbar,
} satisfies Record<Sensor, unknown>;

export function believable(sensor: Sensor): (value: number) => boolean {
  return (value) => isBelievable(value, limits[sensor]);
}
