// The cast that verdicts are timed on: 24 Hz to 6000 dbar and back, 12 bottle stops, about 300,000 scans.
import type { Cruise } from "../../src/cast/cruise.js";
import { simulateCruise } from "../../src/simulate/index.js";

/** @param filmed a film of 150 ppm comes within the cast, and 24 bottles are closed */
export function fullCast(cells: 1 | 2, filmed = false): Cruise {
  return simulateCruise({
    seed: 7,
    casts: 1,
    cells: cells === 1 ? ["primary"] : ["primary", "secondary"],
    deepest_dbar: 6000,
    bottles: filmed ? 24 : 12,
    sampling: { kind: "time-series", rate_Hz: 24 },
    events: filmed
      ? [
          {
            kind: "film-step",
            cells: ["primary"],
            cast: 1,
            at: { leg: "down", pressure_dbar: 700 },
            ppm: -150,
          },
        ]
      : [],
  }).cruise;
}

/** The columns of all casts of a cruise. */
export function columnsOf({ casts }: Cruise): readonly Float64Array[] {
  return casts.flatMap(({ data }) => {
    if (data === undefined) return [];
    const { time_s, pressure_dbar, primary, secondary } = data.columns;
    const readings = [primary, secondary].flatMap((cell) =>
      cell === undefined ? [] : [cell.temperature_C, cell.conductivity_mS_cm],
    );
    return [...(time_s === undefined ? [] : [time_s]), pressure_dbar, ...readings];
  });
}
