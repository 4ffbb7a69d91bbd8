// The demonstration cruise: its story as a scenario, and the files of its folder. Everything in it is invented.
import {
  type Cleaning,
  cruiseFiles,
  type Scenario,
  simulateCruise,
} from "../src/simulate/index.js";

/** Told in fixtures/demo-cruise/README.md. */
export const demoScenario: Scenario = {
  seed: 20310503,
  name: "RV Quillwort in the Sea of Marrowen (invented)",
  casts: 14,
  deepest_dbar: 1800,
  bottles: 12,
  hoursBetweenCasts: 8,
  sampling: { kind: "averages", layer_dbar: 5 },
  calibrationResidual_ppm: { primary: -6, secondary: 21 },
  // The two bad bottles are told below; chance adds none.
  laboratory: { leakRate: 0, misTripRate: 0, newestUnmeasured: 2 },
  events: [
    { kind: "film-growth", cell: "primary", fromCast: 3, untilCast: 7, ppmPerDay: -21 },
    { kind: "leak", cast: 5, bottle: 4, share: 0.03 },
    {
      kind: "film-step",
      cells: ["primary"],
      cast: 8,
      at: { leg: "down", pressure_dbar: 620 },
      ppm: -190,
    },
    { kind: "cleaning", afterCast: 8, intensity: "soak", retained: 0.5 },
    // The usual rinse after every other cast, which moves a film by nothing.
    ...Array.from({ length: 14 }, (_, i) => i + 1)
      .filter((cast) => cast !== 8)
      .map(
        (afterCast) =>
          ({ kind: "cleaning", afterCast, intensity: "rinse", retained: 1 }) satisfies Cleaning,
      ),
    { kind: "mis-trip", cast: 10, bottle: 3, closedWith: 6 },
  ],
};

/** Minutes that the watch has before the next station. */
const minutesAvailable = 90;

/** @returns text by file name, relative to the cruise folder */
export function demoCruiseFiles(): ReadonlyMap<string, string> {
  const { cruise, truth } = simulateCruise(demoScenario);
  return cruiseFiles({
    cruise: {
      ...cruise,
      instrument: { ...cruise.instrument, oxygenSensorInLine: true },
      nextStation: { ...cruise.nextStation, minutesAvailable },
    },
    truth,
  });
}
