// Pressure against time for one cast: deck, soak near 10 dbar, back to the surface, down, up with stops at the bottles,
// deck. Winch speeds vary by leg and depth; the ship's swell moves the package.
// Numbers without a source are judgement: winches, soaks, stops and swell from calm to rough.
import type { RandomStream } from "../random.js";
import { between, betweenLog, happens } from "./draws.js";

export interface Journey {
  readonly rate_Hz: number;
  /** True sea pressure by scan, dbar; 0 on deck. */
  readonly pressure: Float64Array;
  /** Scans from `wetFrom` up to, not including, `wetTo` are in the water. */
  readonly wetFrom: number;
  readonly wetTo: number;
  /** The pump runs from this scan until `wetTo`. */
  readonly pumpFrom: number;
  /** First scan of the soak, of the down leg, of the up leg. */
  readonly soakFrom: number;
  readonly downFrom: number;
  readonly upFrom: number;
  /** In order of closure, the deepest first. */
  readonly closures: readonly ClosureOnPath[];
}

interface ClosureOnPath {
  readonly scan: number;
  /** Duration of the stop before closure, s. */
  readonly stood_s: number;
}

/** How a ship works. Drawn once a cruise. */
interface Practice {
  readonly down_dbar_s: number;
  readonly up_dbar_s: number;
  readonly soak_s: number;
  readonly stop_s: number;
  /** Share of stops that are cut short, and of casts whose pump starts late. */
  readonly shortStops: number;
  readonly latePumps: number;
  readonly swell_dbar: number;
  readonly swellPeriod_s: number;
}

export function drawPractice(random: RandomStream): Practice {
  return {
    down_dbar_s: between(random, 0.8, 1.2),
    up_dbar_s: between(random, 0.8, 1.4),
    soak_s: between(random, 90, 240),
    stop_s: between(random, 35, 75),
    shortStops: between(random, 0, 0.2),
    latePumps: between(random, 0, 0.15),
    swell_dbar: betweenLog(random, 0.1, 1.1),
    swellPeriod_s: between(random, 7, 13),
  };
}

/** One stretch at constant speed: its duration and the pressure at its end. */
interface Leg {
  readonly seconds: number;
  readonly to_dbar: number;
}

const soak_dbar = 10;
/** Time the winch takes to change speed, s. */
const winch_s = 4;

export function drawJourney(
  random: RandomStream,
  practice: Practice,
  bottles_dbar: readonly number[],
  bottom_dbar: number,
  rate_Hz: number,
): Journey {
  const legs: Leg[] = [];
  let seconds = 0;
  let at = 0;
  const to = (to_dbar: number, duration: number) => {
    legs.push({ seconds: duration, to_dbar });
    seconds += duration;
    at = to_dbar;
  };
  const stay = (duration: number) => to(at, duration);
  const haul = (target: number, speed: number) => {
    while (Math.abs(target - at) > 1e-6) {
      const stretch = Math.min(Math.abs(target - at), between(random, 60, 300));
      const near = at < 60 ? 0.55 : 1;
      to(
        at + Math.sign(target - at) * stretch,
        stretch / (speed * near * between(random, 0.8, 1.15)),
      );
    }
  };
  stay(between(random, 40, 150));
  const entered = seconds + 1;
  to(soak_dbar + between(random, -2, 3), between(random, 20, 35));
  const soakFrom = seconds;
  stay(practice.soak_s * between(random, 0.7, 1.4));
  to(between(random, 2, 4), between(random, 12, 25));
  const downFrom = seconds;
  haul(Math.min(60, bottom_dbar), practice.down_dbar_s);
  haul(bottom_dbar - 30, practice.down_dbar_s);
  haul(bottom_dbar, 0.4 * practice.down_dbar_s);
  const upFrom = seconds;
  const closed: { seconds: number; stood_s: number }[] = [];
  const order = [...bottles_dbar].sort((a, b) => b - a);
  for (const [k, pressure] of order.entries()) {
    if (k > 0 && order[k - 1] === pressure) {
      stay(3);
    } else {
      haul(pressure, practice.up_dbar_s);
      const short = happens(random, practice.shortStops);
      stay(short ? between(random, 8, 20) : practice.stop_s * between(random, 0.8, 1.3));
    }
    closed.push({ seconds, stood_s: legs.at(-1)!.seconds });
    stay(between(random, 4, 10));
  }
  haul(3, practice.up_dbar_s);
  stay(between(random, 5, 40));
  to(0, between(random, 4, 8));
  const left = seconds - 1;
  stay(between(random, 40, 150));
  const pump =
    between(random, 25, 60) + (happens(random, practice.latePumps) ? between(random, 60, 200) : 0);
  const nominal = smoothed(sampled(legs, seconds, rate_Hz), Math.round(winch_s * rate_Hz));
  const scan = (time: number) => Math.min(nominal.length - 1, Math.round(time * rate_Hz));
  return {
    rate_Hz,
    pressure: withSwell(random, practice, nominal, rate_Hz),
    wetFrom: scan(entered),
    wetTo: scan(left),
    pumpFrom: scan(entered + pump),
    soakFrom: scan(soakFrom),
    downFrom: scan(downFrom),
    upFrom: scan(upFrom),
    closures: closed.map((one) => ({ scan: scan(one.seconds), stood_s: one.stood_s })),
  };
}

function sampled(legs: readonly Leg[], seconds: number, rate_Hz: number): Float64Array {
  const column = new Float64Array(Math.floor(seconds * rate_Hz));
  let began = 0;
  let from = 0;
  let i = 0;
  for (const leg of legs) {
    const ends = began + leg.seconds;
    for (; i < column.length && i / rate_Hz < ends; i++) {
      column[i] = from + ((leg.to_dbar - from) * (i / rate_Hz - began)) / leg.seconds;
    }
    began = ends;
    from = leg.to_dbar;
  }
  return column;
}

/** Running mean over `width` scans, applied twice. */
function smoothed(column: Float64Array, width: number): Float64Array {
  const once = (values: Float64Array) => {
    const half = Math.floor(width / 2);
    const out = new Float64Array(values.length);
    let sum = 0;
    const value = (i: number) => values[Math.min(Math.max(i, 0), values.length - 1)]!;
    for (let i = -half; i <= half; i++) sum += value(i);
    for (let i = 0; i < out.length; i++) {
      out[i] = sum / (2 * half + 1);
      sum += value(i + half + 1) - value(i - half);
    }
    return out;
  };
  return once(once(column));
}

/** Adds the ship's swell in the water, none on deck. It never lifts the package out of the water. */
function withSwell(
  random: RandomStream,
  { swell_dbar, swellPeriod_s }: Practice,
  nominal: Float64Array,
  rate_Hz: number,
): Float64Array {
  const waves = [0.82, 1, 1.19].map((ratio) => ({
    amplitude: swell_dbar * between(random, 0.35, 0.75),
    perScan: (2 * Math.PI * ratio) / (swellPeriod_s * rate_Hz),
    phase: 2 * Math.PI * random.uniform(),
  }));
  return nominal.map((p, i) => {
    if (p < 0.05) return 0;
    const swell = waves.reduce(
      (sum, { amplitude, perScan, phase }) => sum + amplitude * Math.sin(perScan * i + phase),
      0,
    );
    return Math.max(0.05, p + swell * -Math.expm1(-p / 4));
  });
}
