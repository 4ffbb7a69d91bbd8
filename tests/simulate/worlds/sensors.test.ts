// Sensors of the worlds against what is published of them.
import { describe, expect, it } from "vitest";
import { cFromSp } from "../../../src/seawater/index.js";
import { randomStream } from "../../../src/simulate/random.js";
import { drawJourney, drawPractice } from "../../../src/simulate/worlds/journey.js";
import { delayed, firstOrder, wallLag } from "../../../src/simulate/worlds/response.js";
import {
  type Condition,
  drawSensor,
  readSensor,
  type SimulatedSensor,
} from "../../../src/simulate/worlds/sensors.js";

const rate = 4;
const ramp = (perSecond: number) =>
  Float64Array.from({ length: 4000 }, (_, i) => (perSecond * i) / rate);

describe("responses of sensors", () => {
  it("the heat of the wall lags a steady change by amplitude x time constant x rate [MorisonEtAl1994]", () => {
    const lag = wallLag(ramp(0.1), { amplitude: 0.0245, timeConstant_s: 9.5 }, rate);
    // 0.1 K/s: 0.023 K.
    expect(lag.at(-1)).toBeCloseTo(0.0245 * 9.5 * 0.1, 9);
  });

  it("after a temperature step the wall error equals the amplitude, and 1/e of it after one time constant", () => {
    const step = Float64Array.from({ length: 2000 }, (_, i) => (i < 1000 ? 0 : 2));
    const lag = wallLag(step, { amplitude: 0.0245, timeConstant_s: 9.5 }, 24);
    expect(lag[1000]! / (0.0245 * 2)).toBeCloseTo(1, 2);
    expect(lag[1000 + Math.round(9.5 * 24)]! / (0.0245 * 2)).toBeCloseTo(Math.exp(-1), 2);
  });

  it("a first-order sensor lags a steady change by its time constant", () => {
    const felt = firstOrder(ramp(0.1), () => 0.2, rate);
    expect(ramp(0.1).at(-1)! - felt.at(-1)!).toBeCloseTo(0.1 * 0.2, 9);
  });

  it("a sensor delayed by part of a scan reads the water of that time before", () => {
    const late = delayed(ramp(0.1), 0.07, rate);
    expect(ramp(0.1).at(-1)! - late.at(-1)!).toBeCloseTo(0.1 * 0.07, 9);
  });
});

const fine: SimulatedSensor = {
  ...drawSensor(randomStream(1), rate),
  noise_mS_cm: 0,
  noise_K: 0,
  grain_mS_cm: 1e-9,
  grain_K: 1e-9,
  pressure_ppm_1000dbar: 0,
  offset_uS_cm: 0,
  offset_uS_cm_K: 0,
  thermometer_mK: 0,
};
const clean: Condition = {
  gain_ppm: () => 0,
  offset_uS_cm: () => 0,
  thermometer_mK: () => 0,
  wall: fine.wall,
  blockage_ppm: () => 0,
};
const [salinity, temperature] = [34.7, 2];

/** Readings in water that is the same everywhere. */
function read(sensor: SimulatedSensor, condition: Condition) {
  const random = randomStream(2);
  const practice = drawPractice(random);
  const journey = drawJourney(random, practice, [1000, 400], 1000, rate);
  const readings = readSensor(random, sensor, condition, {
    journey,
    water: { salinity: () => salinity, temperature: () => temperature },
    began_h: 5,
    deck: { air_C: temperature, left_uS_cm: 0, drains_s: 1 },
    dragged_dbar: new Float64Array(journey.pressure.length),
  });
  return { journey, ...readings };
}

/** ln of what is read over what is true, ppm, of scans in the water. */
function ratios({ journey, conductivity_mS_cm }: ReturnType<typeof read>): readonly number[] {
  const { pressure, wetFrom, wetTo } = journey;
  return Array.from({ length: wetTo - wetFrom }, (_, k) => {
    const i = wetFrom + k;
    return 1e6 * Math.log(conductivity_mS_cm[i]! / cFromSp(salinity, temperature, pressure[i]!));
  });
}

describe("a cell in water that is the same everywhere", () => {
  it("a sound cell without noise reads the truth", () => {
    for (const ppm of ratios(read(fine, clean))) expect(Math.abs(ppm)).toBeLessThan(0.01);
  });

  it("a sound cell reads the truth within its noise", () => {
    const noisy = ratios(read({ ...fine, noise_mS_cm: 0.0005 }, clean));
    const mean = noisy.reduce((sum, ppm) => sum + ppm, 0) / noisy.length;
    const sd = Math.sqrt(noisy.reduce((sum, ppm) => sum + (ppm - mean) ** 2, 0) / noisy.length);
    // 0.0005 mS/cm of 31.
    expect(sd).toBeGreaterThan(14);
    expect(sd).toBeLessThan(18);
    expect(Math.abs(mean)).toBeLessThan((4 * sd) / Math.sqrt(noisy.length));
  });

  it("a gain error is the logarithm of the reading over the truth", () => {
    for (const ppm of ratios(read(fine, { ...clean, gain_ppm: () => -180 }))) {
      expect(ppm).toBeCloseTo(1e6 * Math.log1p(-180e-6), 2);
    }
  });

  it("the error of a pressure response grows with pressure", () => {
    const made = read({ ...fine, pressure_ppm_1000dbar: -6 }, clean);
    const { wetFrom, upFrom, pressure } = made.journey;
    expect(ratios(made)[upFrom - wetFrom]).toBeCloseTo((-6 * pressure[upFrom]!) / 1000, 2);
  });

  it("an additive offset appears in air as in water; a gain error does not", () => {
    const { conductivity_mS_cm } = read(fine, {
      ...clean,
      gain_ppm: () => -500,
      offset_uS_cm: () => 4,
    });
    expect(conductivity_mS_cm[0]).toBeCloseTo(0.004, 6);
  });

  it("a slow cell answers a change with more heat of its wall", () => {
    const slow = { ...fine.wall, amplitude: 4 * fine.wall.amplitude };
    const usual = wallLag(ramp(0.1), fine.wall, rate).at(-1)!;
    expect(wallLag(ramp(0.1), slow, rate).at(-1)! / usual).toBeCloseTo(4, 6);
  });
});

describe("the path of a package", () => {
  const practice = drawPractice(randomStream(7));
  const journey = drawJourney(randomStream(8), practice, [2000, 1500, 900, 100], 2000, rate);

  it("a package stands on deck, soaks near 10 dbar, returns to the surface, descends, and stops for each bottle", () => {
    const { pressure, wetFrom, wetTo, soakFrom, downFrom, upFrom, closures } = journey;
    expect(pressure.slice(0, wetFrom - 3 * rate).every((p) => p < 0.5)).toBe(true);
    const soak = pressure.slice(soakFrom + 10 * rate, downFrom - 40 * rate);
    expect(soak.reduce((sum, p) => sum + p, 0) / soak.length).toBeGreaterThan(6);
    expect(pressure[downFrom]).toBeLessThan(7);
    expect(Math.max(...pressure.slice(wetFrom, upFrom))).toBeGreaterThan(1990);
    for (const [k, { scan, stood_s }] of closures.entries()) {
      expect(Math.abs(pressure[scan]! - [2000, 1500, 900, 100][k]!)).toBeLessThan(3);
      expect(stood_s).toBeGreaterThan(7);
      expect(stood_s).toBeLessThan(100);
    }
    expect(pressure.slice(wetTo + 3 * rate).every((p) => p < 0.5)).toBe(true);
  });

  it("a heavy swell turns the package back on its way down", () => {
    const rough = { ...practice, swell_dbar: 1.1, swellPeriod_s: 7, down_dbar_s: 0.8 };
    const { pressure, downFrom, upFrom } = drawJourney(randomStream(8), rough, [2000], 2000, rate);
    const back = pressure.filter((p, i) => i > downFrom && i < upFrom && p < pressure[i - 1]!);
    expect(back.length / (upFrom - downFrom)).toBeGreaterThan(0.05);
  });
});
