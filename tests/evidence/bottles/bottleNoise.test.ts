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
  it("in calm deep water is that of four cruises: 95 % within 0.0016 to 0.0023", () => {
    // Below 2000 dbar: 0.00163, 0.00158 [CruiseReports2021]; 0.00225, 0.00179, 0.00192 [CruiseReports2022].
    const limit = 1.96 * usualError(0);
    expect(limit).toBeGreaterThan(0.00158);
    expect(limit).toBeLessThan(0.00225);
  });

  it("over all depths is that of those cruises, 95 % within 0.005 to 0.0084, where salinity changes by 0.001 to 0.0017 a dbar", () => {
    // 0.00512 to 0.00834 where temperature changes slowly [CruiseReports2021] [CruiseReports2022]; the gradients
    // are those of an upper thermocline, from memory.
    expect(1.96 * usualError(0.001)).toBeGreaterThan(0.005);
    expect(1.96 * usualError(0.001)).toBeLessThan(0.0084);
    expect(1.96 * usualError(0.0014)).toBeLessThan(0.0084);
  });

  it("grows with the gradient, and in a halocline is what a bottle's own length of water makes it", () => {
    const sds = [0, 0.0002, 0.001, 0.01, 0.1].map(usualError);
    expect(sds.toSorted((a, b) => a - b)).toEqual(sds);
    expect(sds.at(-1)).toBeCloseTo(0.25, 4);
  });
});

describe("the noise of a cruise's bottles", () => {
  it("is the usual one without data, and changes little for a few bottles", () => {
    expect(bottleNoise([])).toEqual(usualBottleNoise);
    const calm = { laboratory: 25, gradient: 0, reading: 0 };
    // The scale of these three alone would be 4.4.
    const three = [75, -75, 75].map((residual) => ({ ...calm, residual }));
    expect(bottleNoise(three).laboratory).toBeLessThan(2.2);
    expect(bottleNoise(three).gradient).toBeLessThan(1.8);
  });

  it("approaches the true one in calm water and in gradients, whichever part is the larger", () => {
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

  it("of a coarse laboratory is learnt in calm water, even if the bottles in gradients scatter less than usual", () => {
    const { laboratory } = bottleNoise(departures(60, { laboratory: 3, gradient: 0.4 }));
    expect(laboratory).toBeGreaterThan(1.9);
  });

  it("does not follow a tenth of strays, of any size", () => {
    const strayed = departures(2000, usualBottleNoise).map((one, i) =>
      i % 10 < 2 && i % 4 < 2 ? { ...one, residual: 1e6 } : one,
    );
    // A tenth of gross errors takes the median absolute deviation to the 0.556 quantile of |z|: 1.13.
    expect(bottleNoise(strayed).laboratory).toBeLessThan(1.2);
    expect(bottleNoise(strayed).gradient).toBeLessThan(1.2);
  });

  it("is positive and no better than the laboratory, even for identical bottles", () => {
    const alike = departures(1e4, usualBottleNoise).map((one) => ({ ...one, residual: 0 }));
    expect(bottleNoise(alike).laboratory).toBe(1);
    expect(bottleNoise(alike).gradient).toBeGreaterThan(0);
  });
});
