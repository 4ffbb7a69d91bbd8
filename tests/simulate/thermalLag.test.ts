import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cFromSp, spFromC } from "../../src/seawater/index.js";
import {
  thermalLagOfLayers,
  thermalLagOfScans,
  usualLag,
} from "../../src/simulate/cellWallHeat.js";

const lags = fc.record({
  alpha: fc.double({ min: 0.01, max: 0.15, noNaN: true }),
  tau_s: fc.double({ min: 4, max: 20, noNaN: true }),
});
const ramp = (n: number, perScan: number) =>
  Float64Array.from({ length: n }, (_, i) => i * perScan);

describe("thermal lag of the cell", () => {
  it("thermal lag tends to alpha tau g for a temperature change of g a second, at any sample rate (Lueck 1990)", () => {
    fc.assert(
      fc.property(
        lags,
        fc.double({ min: 0.04, max: 5, noNaN: true }),
        fc.double({ min: -0.2, max: 0.2, noNaN: true }),
        (lag, interval, g) => {
          const n = Math.ceil((40 * lag.tau_s) / interval) + 2;
          const temperature = ramp(n, g * interval);
          const steady = lag.alpha * lag.tau_s * g;
          const scans = thermalLagOfScans(temperature, interval, lag).at(-1)!;
          const layers = thermalLagOfLayers(
            temperature,
            new Float64Array(n).fill(interval),
            lag,
          ).at(-1)!;
          expect(scans).toBeCloseTo(steady, 10);
          expect(layers).toBeCloseTo(steady, 10);
        },
      ),
      { seed: 1 },
    );
  });

  it("after a temperature step dT, thermal lag is alpha dT exp(-t / tau)", () => {
    const rate = 24;
    const step = Float64Array.from({ length: 30 * rate }, (_, i) => (i === 0 ? 10 : 12));
    const lag = thermalLagOfScans(step, 1 / rate, usualLag);
    const atOnce = usualLag.alpha * 2;
    expect(lag[1]! / atOnce).toBeCloseTo(1, 2);
    for (const seconds of [1, 5, 9.5, 20]) {
      const later = lag[1 + Math.round(seconds * rate)]!;
      expect(
        later / lag[1]! / Math.exp(-Math.round(seconds * rate) / rate / usualLag.tau_s),
      ).toBeCloseTo(1, 4);
    }
  });

  it("thermal lag of scans equals that of thin layers", () => {
    const interval = 0.05;
    const temperature = Float64Array.from(
      { length: 4000 },
      (_, i) => 4 + 10 * Math.exp(-((i - 2000) ** 2) / 3e5),
    );
    const scans = thermalLagOfScans(temperature, interval, usualLag);
    const layers = thermalLagOfLayers(temperature, new Float64Array(4000).fill(interval), usualLag);
    scans.forEach((value, i) => {
      expect(Math.abs(value - layers[i]!)).toBeLessThan(1e-6);
    });
  });

  it("thermal lag at 1 m/s in 0.1 K/m is 0.023 K, which reads 0.02 salty going down (Morison et al. 1994)", () => {
    const temperature = ramp(200, -0.1).map((t) => t + 35);
    const lag = thermalLagOfScans(temperature, 1, usualLag).at(-1)!;
    expect(lag).toBeCloseTo(-0.0233, 4);
    const t = temperature.at(-1)!;
    const error = spFromC(cFromSp(35, t - lag, 100), t, 100) - 35;
    expect(error).toBeGreaterThan(0.019);
    expect(error).toBeLessThan(0.024);
  });
});
