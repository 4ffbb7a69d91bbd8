import { describe, expect, it } from "vitest";
import {
  type BottleNoise,
  bottleNoise,
  type Departure,
  laboratorySalinity,
  mismatchSalinity,
  ordinaryError,
  usualBottleNoise,
} from "../../../src/evidence/bottles/bottleNoise.js";
import { seeded } from "../seeded.js";

/** Standard deviation of a bottle's usual error in this gradient of salinity per dbar, PSS-78. */
const usualError = (gradient: number) =>
  ordinaryError(
    { laboratory: laboratorySalinity, gradient: mismatchSalinity(gradient) },
    usualBottleNoise,
  );

/** Bottles with errors of these scales: half in calm water, half where the mismatch is four times the laboratory's error. */
const departures = (count: number, truth: BottleNoise, seed = 5): readonly Departure[] => {
  const { normal } = seeded(seed);
  return Array.from({ length: count }, (_, i) => {
    const parts = { laboratory: 25, gradient: i % 2 === 0 ? 2 : 100, reading: 1 };
    const residual = Math.hypot(ordinaryError(parts, truth), parts.reading) * normal();
    return { ...parts, residual };
  });
};

describe("the noise of bottles", () => {
  it("bottle noise in calm deep water equals that of four cruises: 95 % within 0.0016 to 0.0023", () => {
    // Below 2000 dbar: 0.00163, 0.00158 [CruiseReports2021]; 0.00225, 0.00179, 0.00192 [CruiseReports2022].
    const limit = 1.96 * usualError(0);
    expect(limit).toBeGreaterThan(0.00158);
    expect(limit).toBeLessThan(0.00225);
  });

  it("bottle noise over all depths equals that of four cruises: 95 % within 0.005 to 0.0084 at 0.001 to 0.0017 per dbar", () => {
    // 0.00512 to 0.00834 where temperature changes slowly [CruiseReports2021] [CruiseReports2022]; the gradients
    // are those of an upper thermocline, from memory.
    expect(1.96 * usualError(0.001)).toBeGreaterThan(0.005);
    expect(1.96 * usualError(0.001)).toBeLessThan(0.0084);
    expect(1.96 * usualError(0.0014)).toBeLessThan(0.0084);
  });

  it("bottle noise grows with the salinity gradient, and in a halocline equals the change over the length of a bottle", () => {
    const sds = [0, 0.0002, 0.001, 0.01, 0.1].map(usualError);
    expect(sds.toSorted((a, b) => a - b)).toEqual(sds);
    expect(sds.at(-1)).toBeCloseTo(0.25, 4);
  });
});

describe("the noise of a cruise's bottles", () => {
  it("the noise of a cruise is the usual one without data, and a few bottles change it little", () => {
    expect(bottleNoise([])).toEqual(usualBottleNoise);
    const calm = { laboratory: 25, gradient: 0, reading: 0 };
    // The scale of these three alone would be 4.4.
    const three = [75, -75, 75].map((residual) => ({ ...calm, residual }));
    expect(bottleNoise(three).laboratory).toBeLessThan(2.2);
    expect(bottleNoise(three).gradient).toBeLessThan(1.8);
  });

  it("the estimated noise approaches the true noise in calm water and in gradients", () => {
    for (const truth of [
      { laboratory: 1, gradient: 0.5 },
      { laboratory: 3, gradient: 0.5 },
      { laboratory: 1, gradient: 2 },
      { laboratory: 2, gradient: 1 },
    ]) {
      const noise = bottleNoise(departures(3000, truth));
      for (const gradient of [2, 100]) {
        const parts = { laboratory: 25, gradient };
        const ratio = ordinaryError(parts, noise) / ordinaryError(parts, truth);
        expect(Math.abs(ratio - 1)).toBeLessThan(0.12);
      }
    }
  });

  it("a coarse laboratory is recognised in calm water, even if bottles in gradients scatter less than usual", () => {
    const { laboratory } = bottleNoise(departures(60, { laboratory: 3, gradient: 0.4 }));
    expect(laboratory).toBeGreaterThan(1.9);
  });

  it("outliers in one bottle of ten do not change the estimated noise, for any size", () => {
    const strayed = departures(2000, usualBottleNoise).map((one, i) =>
      i % 10 < 2 && i % 4 < 2 ? { ...one, residual: 1e6 } : one,
    );
    // A tenth of gross errors takes the median absolute deviation to the 0.556 quantile of |z|: 1.13.
    expect(bottleNoise(strayed).laboratory).toBeLessThan(1.2);
    expect(bottleNoise(strayed).gradient).toBeLessThan(1.2);
  });

  it("the estimated noise is at least that of the laboratory, even for identical bottles", () => {
    const alike = departures(1e4, usualBottleNoise).map((one) => ({ ...one, residual: 0 }));
    expect(bottleNoise(alike).laboratory).toBe(1);
    expect(bottleNoise(alike).gradient).toBeGreaterThan(0);
  });
});
