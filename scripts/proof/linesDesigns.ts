// Designs that the lines of evidence are tried on: many casts of one kind, nothing the matter but a steady gain error
// of either cell, and once a film within every cast.
import type { Scenario } from "../../src/simulate/index.js";

export interface Design {
  readonly name: string;
  readonly cruises: number;
  /** Of the cruise of that seed. */
  readonly scenario: (seed: number) => Scenario;
  /** Where the film of the casts that have one comes. */
  readonly onset_dbar: number;
}

/** Each cast is measured in a run of its own, so that casts are independent. */
const common = {
  casts: 20,
  laboratory: { castsPerRun: 1 },
  calibrationResidual_ppm: { primary: -40, secondary: 25 },
} as const;

export const designs: readonly Design[] = [
  {
    name: "open ocean to 2000 dbar, averages of 10 dbar, 12 bottles",
    cruises: 15,
    scenario: (seed) => ({ ...common, seed, deepest_dbar: 2000, bottles: 12 }),
    onset_dbar: 1200,
  },
  {
    name: "open ocean to 5000 dbar, averages of 10 dbar, 24 bottles",
    cruises: 8,
    scenario: (seed) => ({ ...common, seed, deepest_dbar: 5000, bottles: 24 }),
    onset_dbar: 3000,
  },
  {
    name: "open ocean to 800 dbar, scans at 4 Hz, 8 bottles",
    cruises: 6,
    scenario: (seed) => ({
      ...common,
      seed,
      deepest_dbar: 800,
      bottles: 8,
      sampling: { kind: "time-series", rate_Hz: 4 },
    }),
    onset_dbar: 600,
  },
  {
    name: "shelf to 120 dbar, scans at 24 Hz, 6 bottles",
    cruises: 6,
    scenario: (seed) => ({
      ...common,
      seed,
      ocean: "shelf",
      deepest_dbar: 120,
      bottles: 6,
      sampling: { kind: "time-series", rate_Hz: 24 },
    }),
    onset_dbar: 80,
  },
];

/** A film of this size is taken in on the way down of every cast, and gone before the next, ppm. */
export const film_ppm = -150;

/** The same cruise with the film on its first cell. */
export function withFilm(scenario: Scenario, onset_dbar: number): Scenario {
  const casts = Array.from({ length: scenario.casts }, (_, i) => i + 1);
  return {
    ...scenario,
    events: casts.flatMap((cast) => [
      { kind: "shed", cells: ["primary"], cast, retained: 0 } as const,
      {
        kind: "film-step",
        cells: ["primary"],
        cast,
        at: { leg: "down", pressure_dbar: onset_dbar },
        ppm: film_ppm,
      } as const,
    ]),
  };
}
