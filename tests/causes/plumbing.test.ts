import { describe, expect, it } from "vitest";
import type { CellName } from "../../src/cast/cast.js";
import { logOddsOfSigns, type ResponseSigns } from "../../src/model/responseSigns.js";
import { track } from "../../src/track/track.js";
import { deviates, held, inputOf, recovery } from "../track/observations.js";

const both = ["primary", "secondary"] as const;
const sound = { gains: { primary: { down: 4, up: 4 }, secondary: { down: -9, up: -9 } } };

/**
 * Two sound casts, the last with these signs of the primary's response.
 * @param last  of the second cast if it differs: signs of the secondary, error of the bottles in ppm
 */
function afterSigns(
  signs: ResponseSigns,
  cells: readonly CellName[] = both,
  last: { readonly secondary?: ResponseSigns; readonly reference?: number } = {},
) {
  const normal = deviates(12);
  const { reference = 0 } = last;
  const inputs = Array.from({ length: 2 }, (_, i) => {
    const gains = Object.fromEntries(cells.map((cell) => [cell, sound.gains[cell]]));
    const input = inputOf(i, { gains, ...(i < 1 ? {} : { reference }) }, normal);
    const usual = { lag: { value: 1, standardUncertainty: 0.1 } };
    return i < 1
      ? { ...input, response: { primary: usual, secondary: usual } }
      : { ...input, response: { primary: signs, secondary: last.secondary ?? usual } };
  });
  return track(cells, inputs, recovery).at(-1)!;
}
const sign = (value: number, standardUncertainty: number) => ({ value, standardUncertainty });

describe("causes that lie in the plumbing and the thermometer", () => {
  it("a lag of three times the usual without other signs is thermal lag, of that cell alone", () => {
    const tracked = afterSigns({ lag: sign(3, 0.2), delay: sign(0, 0.01), noise: sign(0, 0.1) });
    expect(held(both, tracked, "primary").causes["thermal-lag"]).toBeGreaterThan(0.9);
    expect(held(both, tracked, "secondary").causes.sound).toBeGreaterThan(0.9);
    // Neither shifts the gain.
    expect(Math.abs(held(both, tracked, "primary").mean - 4)).toBeLessThan(20);
  });

  it("a lag of three times the usual in both cells is thermal lag of both", () => {
    const signs = { lag: sign(3, 0.2), delay: sign(0, 0.01), noise: sign(0, 0.1) };
    const tracked = afterSigns(signs, both, { secondary: signs });
    for (const cell of both)
      expect(held(both, tracked, cell).causes["thermal-lag"]).toBeGreaterThan(0.9);
  });

  it("bottles of another station on a cast with little flow do not move the cells", () => {
    const slow = { lag: sign(2.5, 0.3), delay: sign(0.4, 0.02), noise: sign(1.4, 0.1) };
    const tracked = afterSigns(slow, both, { reference: -3000 });
    for (const cell of both) {
      const { up } = sound.gains[cell];
      expect(Math.abs(held(both, tracked, cell).mean - up)).toBeLessThan(20);
    }
  });

  it("a larger lag together with delay and noise is flow", () => {
    const tracked = afterSigns(
      {
        lag: sign(2.5, 0.3),
        delay: sign(0.4, 0.02),
        noise: sign(1.4, 0.1),
      },
      ["primary"],
    );
    expect(held(["primary"], tracked, "primary").causes.flow).toBeGreaterThan(0.9);
  });

  it("a lag within the range of sound cells, or a very uncertain one, is no fault", () => {
    for (const signs of [{ lag: sign(1.4, 0.1) }, { lag: sign(3, 2) }, {}]) {
      expect(
        held(["primary"], afterSigns(signs, ["primary"]), "primary").causes.sound,
      ).toBeGreaterThan(0.9);
    }
  });

  it("signs that were not observed carry no information, and odds are those of normal densities", () => {
    expect(logOddsOfSigns({}, { lag: { mean: 1.5, sd: 0.9 } })).toBe(0);
    const density = (x: number, variance: number) =>
      Math.exp(-(x * x) / (2 * variance)) / Math.sqrt(2 * Math.PI * variance);
    // ln N(1; 1.5, 0.35^2 + 0.1^2 + 0.9^2) - ln N(1; 0, 0.35^2 + 0.1^2), by hand.
    const [wide, narrow] = [0.35 ** 2 + 0.01 + 0.81, 0.35 ** 2 + 0.01];
    const ofLag = Math.log(density(-0.5, wide) / density(1, narrow));
    expect(logOddsOfSigns({ lag: sign(2, 0.1) }, { lag: { mean: 1.5, sd: 0.9 } })).toBeCloseTo(
      ofLag,
      12,
    );
    // One noise in twenty is astray: 0.05 N(1; 0, 0.3^2 + 0.1^2 + 1.5^2).
    const own = 0.3 ** 2 + 0.01;
    const astray = 0.05 * density(1, own + 2.25);
    const ofNoise = Math.log(
      (0.95 * density(-0.3, own + 0.36) + astray) / (0.95 * density(1, own) + astray),
    );
    expect(logOddsOfSigns({ noise: sign(1, 0.1) }, { noise: { mean: 1.3, sd: 0.6 } })).toBeCloseTo(
      ofNoise,
      12,
    );
  });

  it("a lag of twenty-five times the usual is thermal lag", () => {
    const { causes } = held(
      ["primary"],
      afterSigns({ lag: sign(25, 0.5) }, ["primary"]),
      "primary",
    );
    expect(causes["thermal-lag"]).toBeGreaterThan(0.9);
  });

  it("signs that no fault of the flow explains are no fault: estimates that went astray", () => {
    const wild = [
      { noise: sign(-8, 0.1) },
      { noise: sign(3.2, 0.1), lag: sign(0.7, 0.4) },
      { delay: sign(-3, 0.02) },
      { delay: sign(2, 0.05), noise: sign(0, 0.1) },
      { lag: sign(-1e3, 0.2) },
    ];
    for (const signs of wild) {
      const { causes } = held(["primary"], afterSigns(signs, ["primary"]), "primary");
      expect(causes.sound).toBeGreaterThan(0.8);
    }
  });

  it("a thermometer off by 6 mK moves bottles, pair and the thermometers' difference together", () => {
    const off_mK = 6;
    const normal = deviates(3);
    // 27 ppm of conductivity a mK in deep cold water: dSP/dt -1.0542 over C dSP/dC 38.82, derivatives of the GSW reference at SP 34.9, 1000 dbar.
    const water = { conductivity_mS_cm: 32.9166, temperature_C: 4 };
    const perMillikelvin = (1e3 * -1.0542) / (32.9166 * 1.1792);
    const inputs = Array.from({ length: 4 }, (_, i) => {
      const gain = i < 3 ? 0 : off_mK * perMillikelvin;
      const input = inputOf(
        i,
        { gains: { primary: { down: gain, up: gain }, secondary: { down: 0, up: 0 } } },
        normal,
      );
      const between = {
        line: "temperature-pair" as const,
        cast: input.cast,
        design: [
          { slot: { cell: "primary", slot: "thermometer" }, weight: 1 } as const,
          { slot: { cell: "secondary", slot: "thermometer" }, weight: -1 } as const,
          { shared: "thermometers", weight: 1 },
          { shared: "thermometersOfCast", weight: 1 },
        ],
        unit: "mK" as const,
        value: (i < 3 ? 0 : off_mK) + 0.3 * normal(),
        variance: 0.09,
        pressure_dbar: 2000,
      };
      const observations = input.observations.map((o) => ({ ...o, pressure_dbar: 1000, water }));
      return { ...input, observations: [...observations, between] };
    });
    const tracked = track(both, inputs, recovery).at(-1)!;
    const primary = held(both, tracked, "primary");
    expect(primary.causes["temperature-error"]).toBeGreaterThan(0.8);
    expect(primary.causes.fouling ?? 0).toBeLessThan(0.1);
    // The cell itself is as it was.
    expect(Math.abs(primary.mean)).toBeLessThan(40);
    // The same change of salinity with thermometers that agree is the cell's.
    const agreeing = inputs.map((input) => ({
      ...input,
      observations: input.observations.map((o) =>
        o.line === "temperature-pair" ? { ...o, value: 0 } : o,
      ),
    }));
    const fouled = held(both, track(both, agreeing, recovery).at(-1)!, "primary");
    expect(fouled.causes["temperature-error"] ?? 0).toBeLessThan(0.02);
  });
});
