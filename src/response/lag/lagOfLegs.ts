// The effect of the heat of the cell's wall on the two legs, from the temperature that both passed.
import type { Cast, LegName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { cFromSp, ptFromT, spFromCFirstDerivatives, srFromSp } from "../../seawater/index.js";
import type { MatchedLegs } from "../match/matchLegs.js";
import { standingAndMoving, wallHeatAfter } from "./wallHeat.js";

/** Changes of the common temperature along each leg; one value for each match. */
interface CommonProfile {
  /** Mean pressure of the legs, dbar, never falling. */
  readonly pressure_dbar: Float64Array;
  /** Change of conductivity, ppm, for water in the cell one K colder than outside: negative. */
  readonly ppmPerKelvin: Float64Array;
  readonly down: LegPassage;
  readonly up: LegPassage;
}

/** One leg from match to match, in the order of passing; one value for the interval before each match. */
interface LegPassage {
  /** Index in the profile. */
  readonly place: Uint32Array;
  /** Seconds of motion, and seconds of standing before it. */
  readonly moving_s: Float64Array;
  readonly standing_s: Float64Array;
  /** Change of the temperature outside, K. */
  readonly change_K: Float64Array;
  /** K/s over the first matches. */
  readonly firstChange_K_s: number;
}

/**
 * Matches on either side over which temperature is averaged (judgement). Small changes on one leg alone come with small
 * changes of salinity and would look like lag, so only the common part of both legs is used.
 */
const side = 3;
/** Matches over which a leg's first change of temperature is taken (judgement: about one time constant). */
const startMatches = 10;
/** Sensitivities are computed at every sixteenth match and interpolated (speed). */
const every = 16;

export function commonProfile(cast: Cast, legs: Legs, matched: MatchedLegs): CommonProfile {
  const { pressureUp_dbar, pressureDown_dbar, potentialTemperature_C } = matched;
  const n = pressureUp_dbar.length;
  const pressure = new Float64Array(n);
  for (let i = 0; i < n; i++) pressure[i] = (pressureUp_dbar[i]! + pressureDown_dbar[i]!) / 2;
  const smooth = runningMean(potentialTemperature_C, side);
  const place = runningMean(pressure, side);
  const ppmPerKelvin = new Float64Array(n);
  // In-situ minus potential temperature, and the sensitivity, change slowly, so they are computed at a few places.
  const temperature = smooth.slice();
  const at = (i: number) => {
    const sp = (matched.salinityUp[i]! + matched.salinityDown[i]!) / 2;
    const t = ptFromT(srFromSp(sp), smooth[i]!, 0, place[i]!);
    const { dSpDt } = spFromCFirstDerivatives(cFromSp(sp, t, place[i]!), t, place[i]!);
    return { warmer: t - smooth[i]!, perKelvin: matched.ppmPerSalinity[i]! * dSpDt };
  };
  let b = n > 0 ? at(0) : undefined;
  for (let from = 0; from < n && b !== undefined; from += every) {
    const to = Math.min(n - 1, from + every);
    const a = b;
    b = at(to);
    for (let i = from; i < Math.min(n, from + every); i++) {
      const part = to > from ? (i - from) / (to - from) : 0;
      temperature[i]! += a.warmer + part * (b.warmer - a.warmer);
      ppmPerKelvin[i] = a.perKelvin + part * (b.perKelvin - a.perKelvin);
    }
  }
  const { seconds, rate_dbar_s } = legs.clock;
  const own = cast.columns.pressure_dbar;
  const passage = (leg: LegName, direction: 1 | -1) => {
    const when = passed(place, own, legs[leg], seconds, direction);
    return passageOf(place, temperature, when, rate_dbar_s, direction);
  };
  return {
    pressure_dbar: place,
    ppmPerKelvin,
    down: passage("down", 1),
    up: passage("up", -1),
  };
}

/** Up minus down in ppm of conductivity for a lag of amplitude 1 and this time constant. */
export function lagOfLegs({ ppmPerKelvin, down, up }: CommonProfile, tau_s: number): Float64Array {
  const lag = new Float64Array(ppmPerKelvin.length);
  addLag(lag, up, tau_s, 1);
  addLag(lag, down, tau_s, -1);
  for (let i = 0; i < lag.length; i++) lag[i]! *= ppmPerKelvin[i]!;
  return lag;
}

/** Adds the temperature outside minus that in the cell, over the amplitude, K, along one leg. */
function addLag(
  lag: Float64Array,
  { place, moving_s, standing_s, change_K, firstChange_K_s }: LegPassage,
  tau_s: number,
  sign: 1 | -1,
): void {
  // The water before is unknown: assume that the first rate of change had lasted long.
  let value = tau_s * firstChange_K_s;
  for (let k = 0; k < place.length; k++) {
    value = wallHeatAfter(value, standing_s[k]!, moving_s[k]!, change_K[k]!, tau_s);
    lag[place[k]!]! += sign * value;
  }
}

function passageOf(
  pressure: Float64Array,
  temperature: Float64Array,
  seconds: Float64Array,
  rate_dbar_s: number,
  direction: 1 | -1,
): LegPassage {
  const n = pressure.length;
  const place = new Uint32Array(n);
  const moving_s = new Float64Array(n);
  const standing_s = new Float64Array(n);
  const change_K = new Float64Array(n);
  for (let k = 0; k < n; k++) place[k] = direction === 1 ? k : n - 1 - k;
  for (let k = 1; k < n; k++) {
    const i = place[k]!;
    const j = place[k - 1]!;
    const way = Math.abs(pressure[i]! - pressure[j]!);
    const time = standingAndMoving(seconds[i]! - seconds[j]!, way, rate_dbar_s);
    moving_s[k] = time.moving_s;
    standing_s[k] = time.standing_s;
    change_K[k] = temperature[i]! - temperature[j]!;
  }
  const first = place[0]!;
  const later = place[Math.min(startMatches, n - 1)]!;
  const started = seconds[later]! - seconds[first]!;
  return {
    place,
    moving_s,
    standing_s,
    change_K,
    firstChange_K_s: started > 0 ? (temperature[later]! - temperature[first]!) / started : 0,
  };
}

/** Time at which a leg passed each pressure, s, linear between its scans. */
function passed(
  places: Float64Array,
  pressure: Float64Array,
  scans: Uint32Array,
  seconds: Float64Array,
  direction: 1 | -1,
): Float64Array {
  const n = scans.length;
  const found = new Float64Array(places.length);
  let k = direction === 1 ? 0 : n - 1;
  for (let i = 0; i < places.length; i++) {
    const p = places[i]!;
    // In the direction of the deeper scans; except for noise of the gauge, a leg goes one way.
    while (k + direction >= 0 && k + direction < n && pressure[scans[k + direction]!]! < p)
      k += direction;
    const here = scans[k]!;
    const next = scans[Math.min(n - 1, Math.max(0, k + direction))]!;
    const step = pressure[next]! - pressure[here]!;
    const part = step > 0 ? Math.min(1, Math.max(0, (p - pressure[here]!) / step)) : 0;
    found[i] = seconds[here]! + part * (seconds[next]! - seconds[here]!);
  }
  return found;
}

function runningMean(column: Float64Array, half: number): Float64Array {
  const means = new Float64Array(column.length);
  for (let i = 0; i < means.length; i++) {
    const own = Math.min(half, i, column.length - 1 - i);
    let sum = 0;
    for (let k = i - own; k <= i + own; k++) sum += column[k]!;
    means[i] = sum / (2 * own + 1);
  }
  return means;
}
