import { describe, expect, it } from "vitest";
import {
  bottleNoiseScale,
  bottleStandardDeviation,
} from "../../../src/evidence/bottles/bottleNoise.js";
import { seeded } from "../seeded.js";

const normals = (count: number, scale: number, seed = 5) => {
  const { normal } = seeded(seed);
  return Array.from({ length: count }, () => scale * normal());
};

describe("the noise of bottles", () => {
  it("in calm deep water is that of four cruises: 95 % within 0.0016 to 0.0023", () => {
    // Below 2000 dbar: 0.00163, 0.00158 [CruiseReports2021]; 0.00225, 0.00179, 0.00192 [CruiseReports2022].
    const limit = 1.96 * bottleStandardDeviation(0);
    expect(limit).toBeGreaterThan(0.00158);
    expect(limit).toBeLessThan(0.00225);
  });

  it("over all depths is that of those cruises, 95 % within 0.005 to 0.0084, where salinity changes by 0.001 to 0.0017 a dbar", () => {
    // 0.00512 to 0.00834 where temperature changes slowly [CruiseReports2021] [CruiseReports2022]; the gradients
    // are those of an upper thermocline, from memory.
    expect(1.96 * bottleStandardDeviation(0.001)).toBeGreaterThan(0.005);
    expect(1.96 * bottleStandardDeviation(0.001)).toBeLessThan(0.0084);
    expect(1.96 * bottleStandardDeviation(0.0014)).toBeLessThan(0.0084);
  });

  it("grows with the gradient, and in a halocline is what a bottle's own length of water makes it", () => {
    const sds = [0, 0.0002, 0.001, 0.01, 0.1].map((gradient) => bottleStandardDeviation(gradient));
    expect(sds.toSorted((a, b) => a - b)).toEqual(sds);
    expect(sds.at(-1)).toBeCloseTo(0.25, 4);
  });
});

describe("the scale of a cruise's bottles", () => {
  it("is 1 without data, and changes little for a few values", () => {
    expect(bottleNoiseScale([])).toBe(1);
    // Three that scatter four times as much move it by less than one that is its own scale would: to 1.7, not 4.4.
    expect(bottleNoiseScale([3, -3, 3])).toBeLessThan(1.8);
    expect(bottleNoiseScale([0, 0, 0])).toBeGreaterThan(0.9);
  });

  it("goes to the true scale as they grow in number", () => {
    for (const truth of [0.5, 1, 2, 4]) {
      const errors = [3, 30, 300, 3000].map((count) =>
        Math.abs(bottleNoiseScale(normals(count, truth)) / truth - 1),
      );
      expect(errors.at(-1)).toBeLessThan(0.04);
    }
  });

  it("does not follow a tenth of strays, of any size", () => {
    const strayed = normals(2000, 1).map((value, i) => (i % 10 === 0 ? 1e6 : value));
    // A tenth of gross errors takes the median absolute deviation to the 0.556 quantile of |z|: 1.13.
    expect(bottleNoiseScale(strayed)).toBeLessThan(1.2);
  });

  it("is always positive, even for identical bottles", () => {
    expect(bottleNoiseScale(Array.from({ length: 1e4 }, () => 0))).toBeGreaterThan(0);
  });
});
