import { describe, expect, it } from "vitest";
import { normalCdf } from "../../src/statistics/normal.js";
import { dataQuality, worstQuality } from "../../src/verdict/judge/dataQuality.js";

/** 0.002 in salinity, ppm [McTaggartEtAl2010]. */
const target = 51;
const gain = (mean: number, sd: number) => [{ weight: 1, mean, variance: sd ** 2 }];

describe("the data quality of a cast", () => {
  it("data with 30 % probability beyond the target are not sound, from a bias or from uncertainty", () => {
    // The 0.85 and 0.70 quantiles of the standard normal distribution: 1.0364 and 0.5244 (tables).
    const unsure = gain(0, target / 1.0364);
    const biased = gain(target - 10 * 0.5244, 10);
    expect(2 * (1 - normalCdf(1.0364))).toBeCloseTo(0.3, 4);
    expect(dataQuality([unsure], target, true)).toBe("questionable");
    expect(dataQuality([biased], target, true)).toBe("usable-after-correction");
  });

  it("data within the target at two standard deviations are sound", () => {
    expect(dataQuality([gain(0, target / 2)], target, true)).toBe("sound");
    expect(dataQuality([gain(-target / 2, target / 8)], target, true)).toBe("sound");
  });

  it("a known error far beyond the target can be corrected, up to 1 % of conductivity", () => {
    expect(dataQuality([gain(-2000, 20)], target, true)).toBe("usable-after-correction");
    expect(dataQuality([gain(-12_000, 20)], target, true)).toBe("bad");
  });

  it("the worst of several waters counts, and without observations data are not sound", () => {
    expect(dataQuality([gain(0, 5), gain(-200, 5)], target, true)).toBe("usable-after-correction");
    expect(dataQuality([gain(0, 5)], target, false)).toBe("questionable");
    expect(worstQuality(["sound", "questionable", "usable-after-correction"])).toBe("questionable");
    expect(worstQuality(["bad", "sound"])).toBe("bad");
  });
});
