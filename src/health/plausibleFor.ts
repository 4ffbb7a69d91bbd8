// Whether a reading of a sensor is possible.
import { isPlausible, plausibleLimits } from "../cast/plausibleReading.js";
import type { Sensor } from "./finding.js";

const limits = {
  conductivity: plausibleLimits.conductivity_mS_cm,
  temperature: plausibleLimits.temperature_C,
  pressure: plausibleLimits.pressure_dbar,
} satisfies Record<Sensor, unknown>;

export function plausibleFor(sensor: Sensor): (value: number) => boolean {
  return (value) => isPlausible(value, limits[sensor]);
}
