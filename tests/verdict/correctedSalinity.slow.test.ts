import { describe, expect, it } from "vitest";
import { spFromC } from "../../src/seawater/index.js";
import { type Scenario, simulateCruise } from "../../src/simulate/index.js";
import { correctCast } from "../../src/verdict/correctCast.js";
import { correctCruise } from "../../src/verdict/correctCruise.js";

/**
 * Salinity of the secondary cell minus the truth on every third cast, PSS-78, before and after, with the uncertainty that
 * is stated. The truth is what was read with the simulated errors taken out, put through [UNESCO1983].
 */
function errorsWith(seed: number, ...events: NonNullable<Scenario["events"]>) {
  const { cruise, truth } = simulateCruise({ seed, casts: 9, deepest_dbar: 1500, events });
  const correction = correctCruise(cruise);
  const asRead: number[] = [];
  const corrected: number[] = [];
  const stated: number[] = [];
  for (let k = 2; k < cruise.casts.length; k += 3) {
    const data = cruise.casts[k]!.data!;
    const own = truth[k]!.cells.secondary!;
    const { temperature_C, conductivity_mS_cm } = data.columns.secondary!;
    const { salinity, salinityStandardUncertainty } = correctCast(data, correction.casts[k]!).cells
      .secondary!;
    const turn = data.columns.pressure_dbar.indexOf(Math.max(...data.columns.pressure_dbar));
    for (let i = 0; i < salinity.length; i += 7) {
      const pressure = data.columns.pressure_dbar[i]!;
      const gain = own.gain[i <= turn ? "down" : "up"] + (own.pressureResponse * pressure) / 1000;
      const conductivity =
        (conductivity_mS_cm[i]! - 1e-3 * own.additiveOffset_microsiemens_cm) / (1 + 1e-6 * gain);
      const temperature = temperature_C[i]! - 1e-3 * own.temperatureError_mK;
      const known = spFromC(conductivity, temperature, pressure);
      const read = spFromC(conductivity_mS_cm[i]!, temperature_C[i]!, pressure);
      if (![known, read, salinity[i]!].every(Number.isFinite)) continue;
      asRead.push(read - known);
      corrected.push(salinity[i]! - known);
      stated.push(salinityStandardUncertainty[i]!);
    }
  }
  const rms = (values: readonly number[]) =>
    Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
  return { asRead: rms(asRead), corrected: rms(corrected), stated: rms(stated) };
}

const cell = "secondary";
describe("the salinity of a corrected cast", () => {
  it.each([
    ["a thermometer 6 mK off", { kind: "temperature-error", cell, fromCast: 1, mK: 6 }],
    [
      "a pressure response of 80 ppm per 1000 dbar",
      { kind: "pressure-response", cell, ppmPer1000dbar: 80 },
    ],
    ["an offset of 4 uS/cm", { kind: "additive-offset", cell, fromCast: 1, microsiemens_cm: 4 }],
    [
      "a film of 200 ppm",
      { kind: "film-step", cells: [cell], cast: 4, at: "before-cast", ppm: -200 },
    ],
  ] as const)("with %s is within 0.001, and within twice what it states", (_, event) => {
    const { asRead, corrected, stated } = errorsWith(5, event);
    expect(asRead).toBeGreaterThan(0.0022);
    expect(corrected).toBeLessThan(0.001);
    expect(corrected).toBeLessThan(2 * stated);
    expect(stated).toBeLessThan(0.0015);
  });

  it.each([11, 12, 13])(
    "the corrected salinity of a sound cell is no worse than the raw one, cruise %i",
    (seed) => {
      const { asRead, corrected, stated } = errorsWith(seed);
      expect(corrected).toBeLessThan(asRead + 0.0003);
      expect(corrected).toBeLessThan(2 * stated);
    },
  );
});
