// A step looked for in every layer at once, beside the thermal lag: in a thermocline either can look like the other.
import type { LegNoise } from "./legNoise.js";
import {
  dot,
  explains,
  fresh,
  type NewIn,
  newIn,
  type Orthonormal,
  orthonormal,
  type Term,
} from "./newInLayers.js";

/** Before the cast is looked at: steps are of this size, ppm (0.012 in salinity at 35). */
const priorStep_ppm = 300;
/** Places within a layer that it is looked for at. */
export const parts = 4;

export interface ThinLayers {
  readonly difference: Float64Array;
  readonly pressure: Float64Array;
  /** What lag may make of them, ppm, and how much of each there may be beforehand. */
  readonly lag: readonly Term[];
  readonly otherLag: readonly Term[];
  readonly reach: number;
}

export interface Step {
  readonly ppm: number;
  /** It lies in this layer, so much of it being above. */
  readonly layer: number;
  readonly part: number;
  /** What is fitted of lag beside it, ppm. */
  readonly lagged: Float64Array;
}

/** The values and what lag explains of them, as what is new in each layer. */
export interface Beside {
  readonly layers: NewIn;
  readonly y: Float64Array;
  readonly lags: Orthonormal;
  /** Of y, by each of the lags. */
  readonly explained: readonly number[];
}

export function fitBeside({ difference, lag }: ThinLayers, noise: LegNoise): Beside {
  const layers = newIn(noise);
  const y = fresh(layers, difference);
  const lags = orthonormal(lag, layers);
  return { layers, y, lags, explained: lags.fresh.map((column) => dot(column, y)) };
}

/** The evidence for a step in each layer and place of it against lag alone. */
export function searchStep(
  { difference }: ThinLayers,
  { layers: { own, last, before, after }, y, lags, explained }: Beside,
) {
  const n = difference.length;
  const terms = lags.fresh.length;
  const logs = new Float64Array(n * parts).fill(Number.NEGATIVE_INFINITY);
  let most = Number.NEGATIVE_INFINITY;
  let best = { ppm: 0, layer: 0, part: 0 };
  let shares = new Float64Array(terms);
  // Whole layers above so far: information, what it shares with the values, and with the lags.
  let [square, right] = [0, 0];
  const shared = new Float64Array(terms);
  const sharedHere = new Float64Array(terms);
  for (let k = 0; k < n; k++) {
    if (own[k] === 0) continue;
    const next = Math.max(0, after[k]!);
    const whole = own[k]! - last[k]!;
    for (let i = before[k]! < 0 ? 1 : 0; i < parts; i++) {
      const part = i / parts;
      // The layers above count whole; this one, and what is new in the one below, by its part.
      const here = own[k]! * part - last[k]!;
      const below = after[k]! < 0 ? 0 : -last[next]! * part;
      let information = square + here ** 2 + below ** 2 + priorStep_ppm ** -2;
      let value = right + here * y[k]! + below * y[next]!;
      for (let j = 0; j < terms; j++) {
        const column = lags.fresh[j]!;
        const share = shared[j]! + here * column[k]! + below * column[next]!;
        information -= share * share;
        value -= share * explained[j]!;
        sharedHere[j] = share;
      }
      const log = 0.5 * (value ** 2 / information - Math.log(information * priorStep_ppm ** 2));
      logs[k * parts + i] = log;
      if (log <= most) continue;
      most = log;
      best = { ppm: value / information, layer: k, part };
      shares = sharedHere.slice();
    }
    square += whole ** 2;
    right += whole * y[k]!;
    for (let j = 0; j < terms; j++) shared[j]! += whole * lags.fresh[j]![k]!;
  }
  const ratios = logs.map((log) => Math.exp(log - most));
  const lagged = new Float64Array(n);
  for (const [j, column] of lags.raw.entries()) {
    const amplitude = explained[j]! - shares[j]! * best.ppm;
    for (let k = 0; k < n; k++) lagged[k]! += amplitude * column[k]!;
  }
  return {
    log: most + Math.log(ratios.reduce((sum, ratio) => sum + ratio, 0) / logs.length),
    ppm: best.ppm,
    best: { ...best, lagged },
    ratios,
  };
}

/** The evidence for a difference that is the same all the way, or changes evenly with pressure, against lag alone. */
export function otherWaters({ pressure, lag }: ThinLayers, { layers, y, lags }: Beside): number {
  const n = pressure.length;
  const span = pressure[n - 1]! - pressure[0]!;
  const level = new Float64Array(n).fill(1);
  const course = pressure.map((p) => (2 * (p - pressure[0]!)) / span - 1);
  const logs = [[level], [level, course]].map((columns) => {
    const waters = columns.map((column) => ({ column, prior: priorStep_ppm }));
    return explains(orthonormal([...lag, ...waters], layers), y);
  });
  return Math.max(...logs) - explains(lags, y);
}

/** What the evidence for a step loses where lag may have another shape beside it. */
export function lostToLag(
  { pressure, lag, otherLag }: ThinLayers,
  { layers, y }: Beside,
  { layer, part }: Step,
): number {
  const column = pressure.map((_, k) => (k < layer ? 1 : k === layer ? part : 0));
  const step = { column, prior: priorStep_ppm };
  const gain = (terms: readonly Term[]) =>
    explains(orthonormal([...terms, step], layers), y) - explains(orthonormal(terms, layers), y);
  return gain(lag) - gain([...lag, ...otherLag]);
}
