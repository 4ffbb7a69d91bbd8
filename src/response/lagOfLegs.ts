// What the heat of the cell's wall makes of the two legs, from the temperature that both passed.
import type { Cast } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import type { MatchedLegs } from "../evidence/matchLegs.js";
import { cFromSp, ptFromT, spFromCFirstDerivatives, srFromSp } from "../seawater/index.js";

/** The temperature common to both legs, and when each leg passed it; one value a match. */
export interface CommonProfile {
  /** Mean of the legs', dbar, never falling. */
  readonly pressure_dbar: Float64Array;
  /** In-situ degree C. */
  readonly temperature_C: Float64Array;
  /** Ppm of conductivity that the cell reads more where its water is one K colder than outside: negative. */
  readonly ppmPerKelvin: Float64Array;
  readonly secondsDown: Float64Array;
  readonly secondsUp: Float64Array;
  /** Seconds that a dbar takes while the package moves. */
  readonly secondsPerDbar: number;
}

/**
 * Matches on either side over which temperature is averaged. Each leg's own small changes of temperature come with
 * its own small changes of salinity, and would pass for lag: only what both legs have in common is used.
 */
const side = 3;
/** Matches over which a leg's first change of temperature is taken. */
const startMatches = 10;
/** Matches from one place where the sensitivities are worked out to the next. */
const every = 16;

export function commonProfile(cast: Cast, legs: Legs, matched: MatchedLegs): CommonProfile {
  const { pressureUp_dbar, pressureDown_dbar, potentialTemperature_C } = matched;
  const n = pressureUp_dbar.length;
  const pressure = new Float64Array(n);
  for (let i = 0; i < n; i++) pressure[i] = (pressureUp_dbar[i]! + pressureDown_dbar[i]!) / 2;
  const smooth = runningMean(potentialTemperature_C, side);
  const place = runningMean(pressure, side);
  const ppmPerKelvin = new Float64Array(n);
  // In-situ less potential temperature, and the sensitivity, change slowly: worked out here and there.
  const temperature = smooth.slice();
  const at = (i: number) => {
    const sp = (matched.salinityUp[i]! + matched.salinityDown[i]!) / 2;
    const t = ptFromT(srFromSp(sp), smooth[i]!, 0, place[i]!);
    const { dSpDt } = spFromCFirstDerivatives(cFromSp(sp, t, place[i]!), t, place[i]!);
    return { warmer: t - smooth[i]!, perKelvin: matched.ppmPerSalinity[i]! * dSpDt };
  };
  for (let from = 0; from < n; from += every) {
    const to = Math.min(n - 1, from + every);
    const [a, b] = [at(from), at(to)];
    for (let i = from; i < Math.min(n, from + every); i++) {
      const part = to > from ? (i - from) / (to - from) : 0;
      temperature[i]! += a.warmer + part * (b.warmer - a.warmer);
      ppmPerKelvin[i] = a.perKelvin + part * (b.perKelvin - a.perKelvin);
    }
  }
  const { seconds, rate_dbar_s } = legs.clock;
  const own = cast.columns.pressure_dbar;
  return {
    pressure_dbar: place,
    temperature_C: temperature,
    ppmPerKelvin,
    secondsDown: passed(place, own, legs.down, seconds, 1),
    secondsUp: passed(place, own, legs.up, seconds, -1),
    secondsPerDbar: 1 / rate_dbar_s,
  };
}

/** Up minus down in ppm of conductivity that a lag of amplitude 1 and this time constant would make. */
export function lagOfLegs(profile: CommonProfile, tau_s: number): Float64Array {
  const down = lagOnLeg(profile, profile.secondsDown, tau_s, 1);
  const up = lagOnLeg(profile, profile.secondsUp, tau_s, -1);
  return profile.ppmPerKelvin.map((perKelvin, i) => perKelvin * (up[i]! - down[i]!));
}

/**
 * Temperature outside less that in the cell, K, along one leg: exact for a steady change from match to match
 * [LueckPicklo1990]; time beyond what the way takes was a stop, in which the lag dies away first.
 */
function lagOnLeg(
  { pressure_dbar, temperature_C, secondsPerDbar }: CommonProfile,
  seconds: Float64Array,
  tau_s: number,
  direction: 1 | -1,
): Float64Array {
  const n = temperature_C.length;
  const lag = new Float64Array(n);
  const first = direction === 1 ? 0 : n - 1;
  const at = (k: number) => first + direction * k;
  const later = at(Math.min(startMatches, n - 1));
  // What the leg passed before is not known: as if the first change had gone on for long.
  const started = seconds[later]! - seconds[first]!;
  let value = started > 0 ? (tau_s * (temperature_C[later]! - temperature_C[first]!)) / started : 0;
  lag[first] = value;
  for (let k = 1; k < n; k++) {
    const [i, j] = [at(k), at(k - 1)];
    const elapsed = Math.max(0, seconds[i]! - seconds[j]!);
    const moving = Math.min(
      elapsed,
      2 * secondsPerDbar * Math.abs(pressure_dbar[i]! - pressure_dbar[j]!),
    );
    if (elapsed > moving) value *= Math.exp(-(elapsed - moving) / tau_s);
    const kept = Math.exp(-moving / tau_s);
    const response = moving > 0 ? ((1 - kept) * tau_s) / moving : 1;
    value = value * kept + response * (temperature_C[i]! - temperature_C[j]!);
    lag[i] = value;
  }
  return lag;
}

/** When a leg passed each pressure, s, straight between its scans. */
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
    // Towards the deeper scans; noise of the gauge apart, a leg goes one way.
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
  return column.map((_, i) => {
    const own = Math.min(half, i, column.length - 1 - i);
    let sum = 0;
    for (let k = i - own; k <= i + own; k++) sum += column[k]!;
    return sum / (2 * own + 1);
  });
}
