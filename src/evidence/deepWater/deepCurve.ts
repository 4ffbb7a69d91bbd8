// The reference curve of the deep water: salinity at potential temperature. Its shape is the running median of the newest
// casts, each shifted to the level of the curve. Its level is that of the first cast and does not change.
import { median } from "../../statistics/robustCentre.js";
import { weightedMedian } from "../../statistics/weightedMedian.js";
import { classWidth_K, type DeepClass } from "./deepProfile.js";

/** Salinity, PSS-78, at the middle of each class of potential temperature. */
export type DeepCurve = ReadonlyMap<number, number>;

export interface RunningCurve {
  readonly curve: DeepCurve;
  /** The newest casts at the level of the curve. */
  readonly held: readonly DeepCurve[];
}

/** Number of casts in the median: one in three may be an outlier, and the shape follows the track (judgement). */
const mostStored = 9;

export function beginCurve(classes: readonly DeepClass[]): RunningCurve {
  const curve = new Map(classes.map(({ index, salinity }) => [index, salinity]));
  return { curve, held: [curve] };
}

/**
 * The curve with one more cast.
 * @param layer classes in which the cast is compared with the curve, with their weights
 */
export function extendCurve(
  { curve, held }: RunningCurve,
  classes: readonly DeepClass[],
  layer: ReadonlyMap<number, number>,
): RunningCurve {
  const shared = classes.filter(({ index }) => layer.has(index) && curve.has(index));
  const weights = shared.map(({ index }) => layer.get(index)!);
  const level = weightedMedian(
    shared.map(({ index, salinity }) => salinity - curve.get(index)!),
    weights,
  );
  const moved = new Map(classes.map(({ index, salinity }) => [index, salinity - level]));
  const newest = [...held, moved].slice(-mostStored);
  const all = new Map<number, number>();
  for (const index of new Set(newest.flatMap((cast) => [...cast.keys()]))) {
    all.set(index, median(newest.map((cast) => cast.get(index) ?? Number.NaN)));
  }
  // A new median must not change the level, because casts before and after are compared with the same level.
  const drift = weightedMedian(
    shared.map(({ index }) => all.get(index)! - curve.get(index)!),
    weights,
  );
  const settled = (cast: DeepCurve) =>
    new Map([...cast].map(([i, salinity]) => [i, salinity - drift]));
  // Classes that only older casts reached do not change.
  return { curve: new Map([...curve, ...settled(all)]), held: newest.map(settled) };
}

/** A table of reference water as a curve: linear between its rows, undefined beyond them. */
export function curveThrough(
  potentialTemperature_C: ArrayLike<number>,
  values: ArrayLike<number>,
): DeepCurve {
  const order = Array.from(potentialTemperature_C, (_, i) => i).sort(
    (a, b) => potentialTemperature_C[a]! - potentialTemperature_C[b]!,
  );
  const curve = new Map<number, number>();
  for (let k = 0; k + 1 < order.length; k++) {
    const [i, j] = [order[k]!, order[k + 1]!];
    const [from, to] = [potentialTemperature_C[i]!, potentialTemperature_C[j]!];
    for (let index = Math.ceil(from / classWidth_K - 0.5); ; index++) {
      const theta = (index + 0.5) * classWidth_K;
      if (!(theta <= to)) break;
      const part = to > from ? (theta - from) / (to - from) : 0;
      curve.set(index, values[i]! + part * (values[j]! - values[i]!));
    }
  }
  return curve;
}
