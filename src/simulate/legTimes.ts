// The time at which the package passes a pressure, on either leg.
// Numbers without a source are judgement: ordinary handling of a package.
import type { LegName } from "../cast/cast.js";
import type { CompleteScenario } from "./scenario.js";

/** Speed of lowering and hoisting, dbar/s, and duration of each bottle stop, s (common practice, no source). */
export const winch_dbar_s = 1;
export const bottleStop_s = 45;

/** @returns seconds since the start of the lowering, without the ship's heave; bottle stops are spread over the up leg */
export function legTimes({
  deepest_dbar,
  bottlePressures_dbar,
}: CompleteScenario): (leg: LegName, pressure_dbar: number) => number {
  const turn_s = deepest_dbar / winch_dbar_s;
  const upPerDbar = 1 / winch_dbar_s + (bottlePressures_dbar.length * bottleStop_s) / deepest_dbar;
  return (leg, pressure) => {
    const p = Math.min(pressure, deepest_dbar);
    return leg === "down" ? p / winch_dbar_s : turn_s + (deepest_dbar - p) * upPerDbar;
  };
}
