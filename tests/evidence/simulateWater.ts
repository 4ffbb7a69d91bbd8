// Invented water passed twice: a thermocline over a calm deep layer, internal waves that differ between the
// legs, small-scale variability of salinity along surfaces of equal density ("spice"), part of it new on the
// second leg, sensor noise, thermal lag of the cell, and a film that comes at a known place.
import type { Cast, LegName } from "../../src/cast/cast.js";
import { cFromSp, ptFromT, srFromSp } from "../../src/seawater/index.js";
import { castOf } from "../cast/castOf.js";
import { type Seeded, seeded } from "./seeded.js";

export interface Water {
  readonly deepest_dbar: number;
  readonly seed: number;
  /** Standard deviation of the heave of water at mid-depth, dbar. */
  readonly heave_dbar?: number;
  /** Difference of temperature across the thermocline, K. */
  readonly thermocline_K?: number;
  /** Factor on the spice that differs between the legs. */
  readonly spice?: number;
  /** Its vertical correlation, dbar. */
  readonly spiceLength_dbar?: number;
  /** Thermal lag [MorisonEtAl1994]. */
  readonly lag?: { readonly alpha: number; readonly tau_s: number };
  /** Heat that outer parts of the cell hold longer. */
  readonly outerHeat?: { readonly alpha: number; readonly tau_s: number };
  readonly film?: { readonly ppm: number; readonly pressure_dbar: number; readonly leg: LegName };
  /** Scans struck by a spike of -20 000 to +20 000 ppm, as a share. */
  readonly spikes?: number;
}

/** Averages of one dbar of both legs in order, lowered and hoisted at 1 m/s. */
export function simulateWater(water: Water): Cast {
  const levels = Array.from({ length: water.deepest_dbar - 4 }, (_, i) => i + 5);
  const pressure = [...levels, ...levels.toReversed()];
  const noise = { temperature: 0.0002, conductivity: 0.0001 };
  return castThrough(water, pressure, (i) => (i < levels.length ? "down" : "up"), 1, noise);
}

/** The readings of a package that is at `pressure` dbar at each scan, `interval_s` apart. */
export function castThrough(
  water: Water,
  pressure: ArrayLike<number>,
  legOf: (scan: number) => LegName,
  interval_s: number,
  noise: { readonly temperature: number; readonly conductivity: number },
): Cast {
  const random = seeded(water.seed);
  const {
    thermocline_K = 12,
    heave_dbar = 10,
    spice = 1,
    spiceLength_dbar = 12,
    lag,
    outerHeat,
    film,
    spikes = 0,
  } = water;
  const depth = water.deepest_dbar;
  const common = correlated(random, depth, spiceLength_dbar);
  const legs = { down: legWater(), up: legWater() };
  function legWater() {
    const modes = [1, 2, 3, 4, 5, 6].map((m) => (heave_dbar / m) * random.normal());
    return {
      heave: (p: number) =>
        modes.reduce((sum, a, m) => sum + a * Math.sin(((m + 1) * Math.PI * p) / depth), 0),
      strain: correlated(random, depth, 60),
      spice: correlated(random, depth, spiceLength_dbar),
    };
  }
  const temperature = new Float64Array(pressure.length);
  const conductivity = new Float64Array(pressure.length);
  // What cell, thermometer and gauge do not repeat from one leg to the other, 1 ppm in all.
  const unrepeated = { down: 0, up: 1e-6 * random.normal() };
  const responses = [lag, outerHeat].filter((one) => one !== undefined);
  const inCell = responses.map(() => 0);
  let fouled = false;
  for (let i = 0; i < pressure.length; i++) {
    const p = pressure[i]!;
    const leg = legOf(i);
    const own = legs[leg];
    // Water that the wave has brought here from `at`.
    const at = p - own.heave(p) - 0.1 * heave_dbar * own.strain(p);
    const size = 0.0002 + 0.005 * Math.exp(-p / 250);
    const salty = size * (3 * common(at) + spice * own.spice(at));
    const salinity = salinityAt(at, thermocline_K) + salty;
    const theta = thetaAt(at, thermocline_K) + 4 * salty;
    const t = ptFromT(srFromSp(salinity), theta, 0, p);
    for (const [k, { alpha, tau_s }] of i > 0 ? responses.entries() : []) {
      const decay = Math.exp(-interval_s / tau_s);
      const ramp = (t - temperature[i - 1]!) / interval_s;
      inCell[k] = inCell[k]! * decay + alpha * tau_s * ramp * (1 - decay);
    }
    temperature[i] = t;
    if (film !== undefined && film.leg === leg) {
      fouled ||= leg === "down" ? p > film.pressure_dbar : p < film.pressure_dbar;
    }
    const gain = film !== undefined && fouled ? Math.exp(film.ppm * 1e-6) : 1;
    const colder = inCell.reduce((sum, one) => sum + one, 0);
    const struck = random.uniform() < spikes ? 1 + 0.04 * (random.uniform() - 0.5) : 1;
    conductivity[i] =
      cFromSp(salinity, t - colder, p) * gain * struck * (1 + unrepeated[leg]) +
      noise.conductivity * random.normal();
  }
  const noisy = temperature.map((t) => t + noise.temperature * random.normal());
  return castOf(pressure, noisy, conductivity);
}

function thetaAt(p: number, thermocline_K: number): number {
  return 1.5 + 3.5 * Math.exp(-p / 900) + thermocline_K / (1 + Math.exp((p - 130) / 45));
}

function salinityAt(p: number, thermocline_K: number): number {
  const thermocline = (0.075 * thermocline_K) / (1 + Math.exp((p - 130) / 45));
  return (
    34.7 + thermocline - 0.25 * Math.exp(-(((p - 750) / 350) ** 2)) + 0.02 * Math.exp(-p / 2000)
  );
}

/** A process of unit variance along pressure that forgets itself over `length` dbar. */
function correlated(random: Seeded, depth: number, length: number): (p: number) => number {
  const margin = 200;
  const decay = Math.exp(-1 / length);
  const values = new Float64Array(depth + 2 * margin);
  values[0] = random.normal();
  for (let i = 1; i < values.length; i++) {
    values[i] = decay * values[i - 1]! + Math.sqrt(1 - decay * decay) * random.normal();
  }
  return (p) => {
    const x = Math.min(values.length - 2, Math.max(0, p + margin));
    const i = Math.floor(x);
    return values[i]! + (x - i) * (values[i + 1]! - values[i]!);
  };
}
