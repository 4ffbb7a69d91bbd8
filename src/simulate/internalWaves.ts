// Heave: internal waves move the water up and down between the legs without a change of its salinity and potential
// temperature.
import type { RandomStream } from "./random.js";

/** Root-mean-square displacement of open-ocean internal waves, m [Munk1981] (value from memory). */
const usual_dbar = 7;
/** In shallow water no more than this share of the depth: water never overturns, whatever the phases (judgement). */
const shareOfDepth = 1 / 80;
/** Vertical modes, and the mode number at which their energy falls off [Munk1981] (value from memory). */
const modes = 8;
const falloff = 3;
/** Periods, hours: from some tens of minutes to the tide's, 12.4 (judgement for the shorter end). */
const period_h = { least: 0.5, most: 12.4 };

/** @returns displacement of the water, dbar, positive downward, at a pressure and a time in seconds */
export function internalWaves(
  stream: RandomStream,
  bottom_dbar: number,
): (pressure_dbar: number, time_s: number) => number {
  const rms = Math.min(usual_dbar, shareOfDepth * bottom_dbar);
  const energy = Array.from({ length: modes }, (_, k) => 1 / ((k + 1) ** 2 + falloff ** 2));
  const total = energy.reduce((sum, e) => sum + e, 0);
  const waves = energy.map((e, k) => {
    const hours = period_h.least * (period_h.most / period_h.least) ** stream.uniform();
    return {
      // On average half of the square of the amplitude remains over depth, and half of that over time.
      amplitude: 2 * rms * Math.sqrt(e / total),
      wavenumber: ((k + 1) * Math.PI) / bottom_dbar,
      frequency: (2 * Math.PI) / (hours * 3600),
      phase: 2 * Math.PI * stream.uniform(),
    };
  });
  return (p, t) => {
    let displacement = 0;
    for (const { amplitude, wavenumber, frequency, phase } of waves) {
      displacement += amplitude * Math.sin(wavenumber * p) * Math.cos(frequency * t + phase);
    }
    return displacement;
  };
}
