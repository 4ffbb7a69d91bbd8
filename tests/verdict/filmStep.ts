import type { Scenario } from "../../src/simulate/index.js";

/** A film that comes on the fourth cast, at 500 dbar on its way down. */
export const filmStep: Omit<Scenario, "seed"> & Required<Pick<Scenario, "events">> = {
  casts: 4,
  deepest_dbar: 1200,
  bottles: 10,
  events: [
    {
      kind: "film-step",
      cells: ["primary"],
      cast: 4,
      at: { leg: "down", pressure_dbar: 500 },
      ppm: -250,
    },
  ],
};
