// The sensors of a cruise and their readings in known water.
// Numbers without a source are judgement: sensors from very good to poor: lag, noise and offsets by factors of two to four
// about the usual.
import type { CellColumns } from "../../cast/cast.js";
import { cFromSp } from "../../seawater/index.js";
import type { RandomStream } from "../random.js";
import { between, betweenLog, eitherSign, exponential, happens } from "./draws.js";
import type { Journey } from "./journey.js";
import { delayed, firstOrder, type WallHeat, wallLag } from "./response.js";
import type { WaterOverTime } from "./water.js";

/** One cell with its thermometer, at the start of the cruise. */
export interface SimulatedSensor {
  readonly wall: WallHeat;
  /** Delay of the cell's water after the thermometer's, s. */
  readonly delay_s: number;
  /** Time constants: flushing of the cell with the pump on, thermometer. */
  readonly flush_s: number;
  readonly thermometer_s: number;
  /** Time constant of flushing with the pump off, s. */
  readonly stagnant_s: number;
  /** White noise, standard deviation of a scan. */
  readonly noise_mS_cm: number;
  readonly noise_K: number;
  /** Resolution. */
  readonly grain_mS_cm: number;
  readonly grain_K: number;
  readonly pressure_ppm_1000dbar: number;
  readonly offset_uS_cm: number;
  readonly offset_uS_cm_K: number;
  readonly thermometer_mK: number;
  /** Depth of the intake below the pressure sensor, dbar. */
  readonly below_dbar: number;
}

export function drawSensor(random: RandomStream, rate_Hz: number): SimulatedSensor {
  const faster = Math.sqrt(rate_Hz / 4);
  return {
    wall: {
      amplitude: betweenLog(random, 0.0123, 0.049),
      timeConstant_s: betweenLog(random, 4.75, 19),
    },
    delay_s: between(random, 0, 0.12),
    flush_s: betweenLog(random, 0.04, 0.15),
    thermometer_s: betweenLog(random, 0.04, 0.2),
    stagnant_s: between(random, 8, 25),
    noise_mS_cm: faster * betweenLog(random, 0.00015, 0.0008),
    noise_K: faster * betweenLog(random, 0.00015, 0.0008),
    grain_mS_cm: happens(random, 0.1) ? 0.001 : 0.0001,
    grain_K: happens(random, 0.1) ? 0.001 : 0.0001,
    pressure_ppm_1000dbar: betweenLog(random, 0.5, 6) * (happens(random, 0.75) ? 1 : -1),
    offset_uS_cm: 0.1 * exponential(random) * eitherSign(random),
    offset_uS_cm_K: 0.006 * random.normal(),
    thermometer_mK: 0.25 * random.normal(),
    below_dbar: between(random, -0.15, 0.15),
  };
}

/** Errors of a sensor on one cast, as functions of hours since the start of the cruise. */
export interface Condition {
  readonly gain_ppm: (hour: number) => number;
  readonly offset_uS_cm: (hour: number) => number;
  readonly thermometer_mK: (hour: number) => number;
  readonly wall: WallHeat;
  /** Standard deviation of the noise from something stuck in the cell, ppm. */
  readonly blockage_ppm: (hour: number) => number;
}

/** On deck. */
interface Deck {
  readonly air_C: number;
  /** Reading of the water left in the cell, uS/cm; never negative. */
  readonly left_uS_cm: number;
  /** Time constant of draining, s. */
  readonly drains_s: number;
}

export interface Surroundings {
  readonly journey: Journey;
  readonly water: WaterOverTime;
  readonly began_h: number;
  readonly deck: Deck;
  /** Depth below the frame from which the water around it comes, by scan, dbar. */
  readonly dragged_dbar: Float64Array;
}

export function readSensor(
  random: RandomStream,
  sensor: SimulatedSensor,
  condition: Condition,
  { journey, water, began_h, deck, dragged_dbar }: Surroundings,
): CellColumns {
  const { pressure, rate_Hz, wetFrom, wetTo, pumpFrom } = journey;
  const n = pressure.length;
  const isWet = (i: number) => i >= wetFrom && i < wetTo;
  const hour = (i: number) => began_h + i / rate_Hz / 3600;
  const outside = new Float64Array(n);
  const salinity = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const p = isWet(i) ? pressure[i]! + dragged_dbar[i]! + sensor.below_dbar : 0;
    outside[i] = isWet(i) ? water.temperature(p, hour(i)) : deck.air_C;
    salinity[i] = water.salinity(p, hour(i));
  }
  const flush = (i: number) => (i >= pumpFrom && i < wetTo ? sensor.flush_s : sensor.stagnant_s);
  const within = (column: Float64Array) =>
    firstOrder(delayed(column, sensor.delay_s, rate_Hz), flush, rate_Hz);
  const inCell = within(outside);
  const saltInCell = within(salinity);
  const lag = wallLag(inCell, condition.wall, rate_Hz);
  const felt = firstOrder(outside, () => sensor.thermometer_s, rate_Hz);
  const temperature_C = new Float64Array(n);
  const conductivity_mS_cm = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const h = hour(i);
    const warmth = inCell[i]! - lag[i]!;
    const offset =
      sensor.offset_uS_cm + sensor.offset_uS_cm_K * (warmth - 10) + condition.offset_uS_cm(h);
    const true_mS_cm = isWet(i)
      ? cFromSp(saltInCell[i]!, warmth, pressure[i]!)
      : drained(deck, conductivity_mS_cm[wetTo - 1]!, (i - wetTo) / rate_Hz);
    const ppm =
      condition.gain_ppm(h) +
      (sensor.pressure_ppm_1000dbar * pressure[i]!) / 1000 +
      condition.blockage_ppm(h) * random.normal();
    const read =
      true_mS_cm * (1 + 1e-6 * ppm) + 1e-3 * offset + sensor.noise_mS_cm * random.normal();
    conductivity_mS_cm[i] = onGrain(read, sensor.grain_mS_cm);
    const error_mK = sensor.thermometer_mK + condition.thermometer_mK(h);
    temperature_C[i] = onGrain(
      felt[i]! + 1e-3 * error_mK + sensor.noise_K * random.normal(),
      sensor.grain_K,
    );
  }
  return { temperature_C, conductivity_mS_cm };
}

/** True conductivity of a cell on deck, mS/cm: water left in it, and after the cast the sea water that drains. */
function drained({ left_uS_cm, drains_s }: Deck, last_mS_cm: number, seconds: number): number {
  const left = 1e-3 * left_uS_cm;
  return seconds < 0 ? left : left + last_mS_cm * Math.exp(-seconds / drains_s);
}

function onGrain(value: number, grain: number): number {
  return Math.round(value / grain) * grain;
}
