import { describe, expect, it } from "vitest";
import { certainZero, condition, redraw, widen } from "../../src/model/gaussian.js";
import { smoothedEntries } from "../../src/model/past.js";
import { mixtureMean, mixtureStandardDeviation } from "../../src/statistics/mixture.js";
import { errorMixture } from "../../src/track/errorComponent.js";
import { type SmoothedCruise, smooth } from "../../src/track/smooth.js";
import { storeForSmoothing } from "../../src/track/storeForSmoothing.js";
import { track } from "../../src/track/track.js";
import { deviates, held, inputOf, recovery } from "./observations.js";

const primary = ["primary"] as const;
const gainOf = (smoothed: SmoothedCruise, cast: string) =>
  errorMixture(smoothed.error(cast, "primary", "up"), [1, 0, 0, 0]);
const castOf = (i: number) => String(i + 1).padStart(3, "0");

describe("smoothing", () => {
  it("smoothing random chains of maps and observations equals joint conditioning", () => {
    const normal = deviates(31);
    const size = 3;
    const steps = 40;
    const rows = Array.from({ length: steps }, () => Float64Array.from({ length: size }, normal));
    const values = rows.map(() => 5 * normal());
    // All coefficients of all times in one large Gaussian, filled by a random walk from time to time.
    const large = certainZero(size * steps);
    for (let j = 0; j < size; j++) {
      const everAfter = new Float64Array(size * steps);
      for (let k = 0; k < steps; k++) everAfter[k * size + j] = 1;
      widen(large, everAfter, 0, 9);
      for (let k = 1; k < steps; k++) {
        const after = everAfter.map((value, i) => (i >= k * size ? value : 0));
        widen(large, after, 0, 0.5);
      }
    }
    rows.forEach((row, k) => {
      const wide = new Float64Array(size * steps);
      wide.set(row, k * size);
      condition(large, wide, values[k]!, 2);
    });
    let state = certainZero(size);
    for (let j = 0; j < size; j++) redraw(state, j, 0, 9);
    const unit = Array.from({ length: size }, (_, j) =>
      Float64Array.from({ length: size }, (_, i) => (i === j ? 1 : 0)),
    );
    rows.forEach((row, k) => {
      if (k > 0) for (const direction of unit) widen(state, direction, 0, 0.5);
      condition(state, row, values[k]!, 2);
      state = storeForSmoothing(state, [unit], []);
    });
    const casts = smoothedEntries(state.past!);
    for (let i = 0; i < size * steps; i++) {
      const { mean, covariance } = casts[Math.floor(i / size)]!;
      expect(mean[i % size]).toBeCloseTo(large.mean[i]!, 9);
      const first = i - (i % size);
      for (let j = 0; j < size; j++) {
        const known = large.covariance[i * size * steps + first + j]!;
        expect(covariance[(i % size) * size + j]).toBeCloseTo(known, 9);
      }
    }
  });

  it("smoothing leaves the last cast unchanged and makes earlier casts more certain", () => {
    const normal = deviates(9);
    const inputs = Array.from({ length: 10 }, (_, i) =>
      inputOf(i, { gains: { primary: { down: -60, up: -60 } } }, normal),
    );
    const filtered = track(primary, inputs, recovery);
    const smoothed = smooth(primary, inputs, recovery);
    const sdOf = (i: number) => mixtureStandardDeviation(gainOf(smoothed, castOf(i)));
    const first = held(primary, filtered[0]!, "primary");
    expect(sdOf(0)).toBeLessThan(first.sd / 2);
    const last = held(primary, smoothed.atEnd, "primary");
    expect(mixtureMean(gainOf(smoothed, castOf(9)))).toBeCloseTo(last.mean, 6);
    expect(sdOf(9)).toBeCloseTo(last.sd, 6);
  });

  it("a cast without bottles between others gets the gain of its neighbours", () => {
    const normal = deviates(4);
    const inputs = Array.from({ length: 9 }, (_, i) => {
      const input = inputOf(i, { gains: { primary: { down: -120, up: -120 } } }, normal);
      return i === 4 ? { ...input, observations: [] } : input;
    });
    const gain = gainOf(smooth(primary, inputs, recovery), castOf(4));
    expect(Math.abs(mixtureMean(gain) + 120)).toBeLessThan(3 * mixtureStandardDeviation(gain));
    expect(mixtureStandardDeviation(gain)).toBeLessThan(15);
  });

  it("a film found by bottles after two casts without evidence may have come before either", () => {
    const normal = deviates(12);
    const inputs = Array.from({ length: 10 }, (_, i) => {
      const gain = i >= 4 ? -220 : 0;
      const input = inputOf(i, { gains: { primary: { down: gain, up: gain } } }, normal);
      return i === 4 || i === 5 ? { ...input, observations: [] } : input;
    });
    const smoothed = smooth(primary, inputs, recovery);
    const wrong = (i: number) => 1 - (smoothed.causes(castOf(i), "primary").get("sound") ?? 0);
    expect(wrong(3)).toBeLessThan(0.1);
    // It came before the first of them, the second, or the next: nothing tells which.
    expect(Math.abs(wrong(4) - 1 / 3)).toBeLessThan(0.15);
    expect(Math.abs(wrong(5) - 2 / 3)).toBeLessThan(0.15);
    expect(wrong(6)).toBeGreaterThan(0.95);
    const sums = inputs.map(({ cast }) =>
      [...smoothed.causes(cast, "primary").values()].reduce((a, b) => a + b, 0),
    );
    for (const sum of sums) expect(sum).toBeCloseTo(1, 9);
  });

  it("95 % intervals of the smoothed gain contain the truth in 90 to 99.5 % of casts with a film in mid-cruise", () => {
    let inside = 0;
    let count = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const normal = deviates(seed);
      const film = -150 - 100 * Math.abs(normal());
      const at = 2 + (seed % 5);
      const gains = Array.from({ length: 9 }, (_, i) => 10 * Math.sin(seed) + (i >= at ? film : 0));
      const inputs = gains.map((gain, i) =>
        inputOf(i, { gains: { primary: { down: gain, up: gain } } }, normal),
      );
      const smoothed = smooth(primary, inputs, recovery);
      gains.forEach((gain, i) => {
        const estimate = gainOf(smoothed, castOf(i));
        const off = Math.abs(mixtureMean(estimate) - gain) / mixtureStandardDeviation(estimate);
        if (off < 1.96) inside++;
        count++;
      });
    }
    expect(inside / count).toBeGreaterThan(0.9);
    expect(inside / count).toBeLessThan(0.995);
  });
});
