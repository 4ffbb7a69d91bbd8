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
/** The step is compared with a wandering level over so much on either side, dbar (from simulated casts). */
const around_dbar = 150;
/** Places within a layer that it is looked for at. */
export const parts = 4;

/**
 * Not looked for so near to either end, dbar, or a share of the cast: waves move the water there beyond what the other
 * leg passed.
 */
const edge_dbar = 10;
const edgeShare = 1 / 50;

export interface ThinLayers {
  readonly difference: Float64Array;
  readonly pressure: Float64Array;
  /** What lag may make of them, ppm, and how much of each there may be beforehand. */
  readonly lag: readonly Term[];
  readonly otherLag: readonly Term[];
  /** What the wiggles of temperature tell of those of salinity, ppm. */
  readonly balanced: Term;
  readonly reach: number;
}

export interface Step {
  readonly ppm: number;
  /** It lies in this layer, so much of it being above. */
  readonly layer: number;
  readonly part: number;
  /** What is fitted of lag and of salinity that balances temperature beside it, ppm. */
  readonly lagged: Float64Array;
  readonly balanced: Float64Array;
}

/** How much of layer k lies above the step. */
function shareAbove(k: number, layer: number, part: number): number {
  return k < layer ? 1 : k === layer ? part : 0;
}

/** The differences without the step and what goes beside it, ppm. */
export function withoutStep(
  { difference }: ThinLayers,
  { ppm, layer, part, lagged, balanced }: Step,
): Float64Array {
  return difference.map((d, k) => d - lagged[k]! - balanced[k]! - shareAbove(k, layer, part) * ppm);
}

/** The values and what lag explains of them, as what is new in each layer. */
export interface Beside {
  readonly layers: NewIn;
  readonly y: Float64Array;
  readonly lags: Orthonormal;
  /** Of y, by each of the lags. */
  readonly explained: readonly number[];
}

export function fitBeside({ difference, lag, balanced }: ThinLayers, noise: LegNoise): Beside {
  const layers = newIn(noise);
  const y = fresh(layers, difference);
  const lags = orthonormal([...lag, balanced], layers);
  return { layers, y, lags, explained: lags.fresh.map((column) => dot(column, y)) };
}

export interface FoundStep {
  /** Logarithm of the evidence for a step somewhere, and at the best place, against lag alone. */
  readonly log: number;
  readonly most: number;
  readonly ppm: number;
  readonly best: Step;
  /** Of the evidence at each place to that at the best. */
  readonly ratios: Float64Array;
}

/** The evidence for a step in each layer and place of it against lag alone. */
export function searchStep(
  { difference, pressure, balanced }: ThinLayers,
  { layers: { own, last, earlier, after }, y, lags, explained }: Beside,
): FoundStep {
  const n = difference.length;
  const terms = lags.fresh.length;
  const span = pressure[n - 1]! - pressure[0]!;
  const edge = Math.min(edge_dbar, edgeShare * span);
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
    // What is new below: of the next layer beside this one, and of the one after that.
    const next = Math.max(0, after[k]!);
    const second = Math.max(0, after[next]!);
    const ofNext = after[k]! < 0 ? 0 : -last[next]!;
    const beforeNext = after[k]! < 0 ? 0 : -earlier[next]!;
    const ofSecond = after[k]! < 0 || after[next]! < 0 ? 0 : -earlier[second]!;
    const whole = own[k]! - last[k]! - earlier[k]!;
    const nearest = Math.min(pressure[k]! - pressure[0]!, pressure[n - 1]! - pressure[k]!);
    for (let i = nearest < edge ? parts : 0; i < parts; i++) {
      const part = i / parts;
      // The layers above count whole; this one, and what is new in the one below, by its part.
      const here = own[k]! * part - last[k]! - earlier[k]!;
      const below = ofNext * part + beforeNext;
      const further = ofSecond * part;
      let information = square + here ** 2 + below ** 2 + further ** 2 + priorStep_ppm ** -2;
      let value = right + here * y[k]! + below * y[next]! + further * y[second]!;
      for (let j = 0; j < terms; j++) {
        const column = lags.fresh[j]!;
        const share =
          shared[j]! + here * column[k]! + below * column[next]! + further * column[second]!;
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
  const beside = new Float64Array(n);
  let ofBalanced = 0;
  for (const [j, column] of lags.raw.entries()) {
    const amplitude = explained[j]! - shares[j]! * best.ppm;
    ofBalanced += amplitude * lags.shares[j]!.at(-1)! * balanced.prior;
    for (let k = 0; k < n; k++) beside[k]! += amplitude * column[k]!;
  }
  const balancing = balanced.column.map((b) => ofBalanced * b);
  const lagged = beside.map((all, k) => all - balancing[k]!);
  return {
    most,
    log: most + Math.log(ratios.reduce((sum, ratio) => sum + ratio, 0) / logs.length),
    ppm: best.ppm,
    best: { ...best, lagged, balanced: balancing },
    ratios,
  };
}

/** The evidence for a difference that is the same all the way, or changes evenly with pressure, against lag alone. */
export function otherWaters(
  { pressure, lag, balanced }: ThinLayers,
  { layers, y, lags }: Beside,
): number {
  const n = pressure.length;
  const span = pressure[n - 1]! - pressure[0]!;
  const level = new Float64Array(n).fill(1);
  const course = pressure.map((p) => (2 * (p - pressure[0]!)) / span - 1);
  const logs = [[level], [level, course]].map((columns) => {
    const waters = columns.map((column) => ({ column, prior: priorStep_ppm }));
    return explains(orthonormal([...lag, balanced, ...waters], layers), y);
  });
  return Math.max(...logs) - explains(lags, y);
}

/** What the evidence for a step loses where lag may have another shape beside it. */
export function lostToLag(
  { pressure, lag, otherLag, balanced }: ThinLayers,
  { layers, y }: Beside,
  { layer, part }: Step,
): number {
  const column = pressure.map((_, k) => shareAbove(k, layer, part));
  const step = { column, prior: priorStep_ppm };
  const gain = (terms: readonly Term[]) =>
    explains(orthonormal([...terms, step], layers), y) - explains(orthonormal(terms, layers), y);
  const usual = [...lag, balanced];
  return gain(usual) - gain([...usual, ...otherLag]);
}

/**
 * How much better the step explains what is around it than differences without one whose level wanders, as between two
 * waters: what is new in each layer beside the step, against jumps from layer to layer.
 */
export function againstWandering(
  thin: ThinLayers,
  steady: Beside,
  wander: Beside,
  { most, log, best }: FoundStep,
): number {
  const { pressure } = thin;
  const value = withoutStep(thin, best);
  const left = fresh(steady.layers, value);
  const jumps = wander.y.slice();
  for (const [j, column] of wander.lags.fresh.entries()) {
    for (let k = 0; k < jumps.length; k++) jumps[k]! -= wander.explained[j]! * column[k]!;
  }
  let sum = log - most;
  const p0 = pressure[best.layer]!;
  for (let k = 0; k < value.length; k++) {
    if (steady.layers.before[k]! < 0 || Math.abs(pressure[k]! - p0) > around_dbar) continue;
    sum += (jumps[k]! ** 2 - left[k]! ** 2) / 2;
    sum += Math.log(steady.layers.own[k]! / wander.layers.own[k]!);
  }
  return sum;
}
