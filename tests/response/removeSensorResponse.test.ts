import { describe, expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { fourierTransform } from "../../src/response/alignment/fourierTransform.js";
import {
  cellTemperatureLag,
  removeSensorResponse,
} from "../../src/response/removeSensorResponse.js";
import { cFromSp, spFromC } from "../../src/seawater/index.js";
import { thermalLagOfScans } from "../../src/simulate/index.js";
import { castOf } from "../cast/castOf.js";
import { seeded } from "../evidence/seeded.js";

const usual = { alpha: 0.0245, tau_s: 9.5 };
const secondsOf = (n: number, rate: number) => Float64Array.from({ length: n }, (_, i) => i / rate);

describe("the filter of the cell's heat", () => {
  test.each([0.003, 0.0168, 0.05, 0.3, 1])(
    "at %s Hz has the size and angle of alpha s tau / (1 + s tau) (form: Lueck 1990, from memory)",
    (hertz) => {
      const rate = 24;
      const n = Math.ceil((8 / hertz + 60) * rate);
      const seconds = secondsOf(n, rate);
      const wave = seconds.map((s) => Math.cos(2 * Math.PI * hertz * s));
      const lag = cellTemperatureLag(wave, seconds, usual);
      // The last four periods, after the start has died away.
      let [re, im, from] = [0, 0, n - Math.round((4 * rate) / hertz)];
      for (let i = from; i < n; i++) {
        re += lag[i]! * Math.cos(2 * Math.PI * hertz * seconds[i]!);
        im -= lag[i]! * Math.sin(2 * Math.PI * hertz * seconds[i]!);
      }
      [re, im] = [(2 * re) / (n - from), (2 * im) / (n - from)];
      const x = 2 * Math.PI * hertz * usual.tau_s;
      expect(re).toBeCloseTo((usual.alpha * x * x) / (1 + x * x), 4);
      expect(im).toBeCloseTo((usual.alpha * x) / (1 + x * x), 4);
    },
  );

  test("a steady change of g a second gives alpha tau g", () => {
    const seconds = secondsOf(24 * 200, 24);
    const lag = cellTemperatureLag(
      seconds.map((s) => 20 - 0.1 * s),
      seconds,
      usual,
    );
    expect(lag.at(-1)!).toBeCloseTo(-0.1 * usual.alpha * usual.tau_s, 8);
  });

  test("goes on over missing scans with the time that passed", () => {
    const seconds = secondsOf(24 * 200, 24);
    const ramp = seconds.map((s, i) => (i % 7 === 3 ? Number.NaN : 20 - 0.1 * s));
    const lag = cellTemperatureLag(ramp, seconds, usual);
    expect(lag.at(-1)!).toBeCloseTo(-0.1 * usual.alpha * usual.tau_s, 6);
  });
});

/** Down and up through a thermocline at 24 Hz, SP 35 everywhere; conductivity late and with the heat of the wall. */
function lateCast(later_s: number) {
  const rate = 24;
  const half = 200 * rate;
  const seconds = secondsOf(2 * half, rate);
  const depthAt = (s: number) => 6 + (s < 200 ? s : 400 - s);
  const temperatureAt = (s: number) => 15 + 5 * Math.tanh((90 - depthAt(s)) / 6) - depthAt(s) / 200;
  const temperature = seconds.map(temperatureAt);
  const wall = thermalLagOfScans(
    seconds.map((s) => temperatureAt(s - later_s)),
    1 / rate,
    usual,
  );
  const pressure = seconds.map(depthAt);
  const conductivity = seconds.map((s, i) =>
    cFromSp(35, temperatureAt(s - later_s) - wall[i]!, pressure[i]!),
  );
  return castOf(pressure, temperature, conductivity, { time_s: seconds });
}

describe("a cast in water of SP 35 whose cell is late and holds heat", () => {
  const worst = (cast: ReturnType<typeof lateCast>) => {
    const { pressure_dbar: p, primary } = cast.columns;
    let most = 0;
    for (let i = 48; i < p.length - 48; i++) {
      const sp = spFromC(primary.conductivity_mS_cm[i]!, primary.temperature_C[i]!, p[i]!);
      most = Math.max(most, Math.abs(sp - 35));
    }
    return most;
  };

  test.each([0.05, -0.073, 0.3])("late by %s s reads 35 again once corrected", (later_s) => {
    const cast = lateCast(later_s);
    const before = Float64Array.from(cast.columns.primary.conductivity_mS_cm);
    const correction = { primary: { alignment_s: later_s, thermalLag: usual } };
    const corrected = removeSensorResponse(cast, splitLegs(cast), correction);
    expect(worst(cast)).toBeGreaterThan(0.03);
    expect(worst(corrected)).toBeLessThan(0.001);
    expect(cast.columns.primary.conductivity_mS_cm).toEqual(before);
    expect(corrected.columns.primary.temperature_C).toBe(cast.columns.primary.temperature_C);
  });

  test("a correction that is not given changes nothing; a cast without times or an impossible lag is refused", () => {
    const cast = lateCast(0);
    const same = removeSensorResponse(cast, splitLegs(cast), {});
    expect(same.columns.primary).toBe(cast.columns.primary);
    const { time_s, ...columns } = cast.columns;
    const timeless = { ...cast, columns };
    expect(time_s).toBeDefined();
    expect(() =>
      removeSensorResponse(timeless, splitLegs(timeless), { primary: { alignment_s: 0.1 } }),
    ).toThrow(/expected times or a sample rate/);
    const wrong = { primary: { thermalLag: { alpha: 0.02, tau_s: 0 } } };
    expect(() => removeSensorResponse(cast, splitLegs(cast), wrong)).toThrow(RangeError);
  });
});

test("the transform is the sum that defines it", () => {
  const random = seeded(3);
  const n = 32;
  const real = Float64Array.from({ length: n }, () => random.normal());
  const imaginary = Float64Array.from({ length: n }, () => random.normal());
  const [re, im] = [Float64Array.from(real), Float64Array.from(imaginary)];
  fourierTransform(re, im);
  for (let k = 0; k < n; k++) {
    let [sumRe, sumIm] = [0, 0];
    for (let i = 0; i < n; i++) {
      const angle = (-2 * Math.PI * k * i) / n;
      sumRe += real[i]! * Math.cos(angle) - imaginary[i]! * Math.sin(angle);
      sumIm += real[i]! * Math.sin(angle) + imaginary[i]! * Math.cos(angle);
    }
    expect(re[k]).toBeCloseTo(sumRe, 12);
    expect(im[k]).toBeCloseTo(sumIm, 12);
  }
});
