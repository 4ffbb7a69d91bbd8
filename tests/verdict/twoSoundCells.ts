// A cruise of two sound cells without bottles or maintenance, and what its verdicts may not say.
import { expect } from "vitest";
import { type Cruise, type CruiseCast, defaultTarget } from "../../src/cast/cruise.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

export function withTwoCells(casts: readonly CruiseCast[], sampleRate_Hz: number): Cruise {
  return {
    name: "Invented cruise",
    casts,
    bottles: [],
    maintenance: [],
    instrument: { cells: ["primary", "secondary"], flow: "pumped", sampleRate_Hz },
    target: defaultTarget,
    inputs: [],
  };
}

/** On no cast a film in either cell that is more probable than not, and nowhere more than a rinse. */
export function expectNoFilm(cruise: Cruise): void {
  for (const { cells, advice } of assessCruise(cruise).casts) {
    expect(advice.intensity).toBe("rinse");
    for (const { causes } of Object.values(cells)) {
      const fouling = causes.find(({ cause }) => cause === "fouling");
      expect(fouling?.probability ?? 0).toBeLessThan(0.5);
    }
  }
}
