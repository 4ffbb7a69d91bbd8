// The matched differences of a cast in the order of pressure as a process that scatters about its level and forgets itself
// from one thin layer to the next: how large a jump between neighbours is by chance, and how large a shift of many.
import { median } from "../statistics/robustCentre.js";
import { waterScatter, winsorisedScale } from "./waterScatter.js";

/** One value a thin layer. */
export interface LegNoise {
  /** Standard deviation about the level, ppm. */
  readonly scatter: Float64Array;
  /** Correlation with the value before. */
  readonly kept: Float64Array;
  /** Factor on the variance of what is new, for memory beyond that of neighbours. */
  readonly lasting: Float64Array;
  /** 1 where the value is a spike. */
  readonly spike: Uint8Array;
}

/** No difference scatters less than this, ppm; where too few tell, by the second: 0.01 in salinity (our judgement). */
const floor_ppm = 2;
const unknown_ppm = 250;
/** Scatter and memory are learnt from the cast itself: variances may be this much larger (from simulated casts). */
const learnt = 1.3;
/** The lag's course is modelled to within this share of it (our judgement). */
const lagShapeShare = 0.1;
/** A value this many standard deviations from the median of its neighbours, so many on each side, is a spike. */
const spike = 3;
const neighbours = 5;
/** Jumps are learnt over stretches of so many values, from neighbours and from values up to so far apart (from simulated casts). */
const jumpReach = 16;
const jumpLags = [1, 2, 4];
const mostKept = 0.99;

/**
 * @param value    differences without lag and without the step that is thought of, ppm
 * @param lag      what was taken out for lag, ppm; where it changes much from one value to the next, so may the rest
 * @param pressure of the values, dbar: over a gap more is forgotten
 * @param reach    values over which the differences forget themselves
 */
export function legNoise(
  value: Float64Array,
  lag: Float64Array,
  pressure: Float64Array,
  reach: number,
): LegNoise {
  const n = value.length;
  const spacing = median(pressure.subarray(1).map((p, k) => p - pressure[k]!));
  const { standardDeviation, memory } = waterScatter(value, reach);
  const scatter = standardDeviation.map((s, k) =>
    Math.hypot(Number.isFinite(s) ? Math.max(s, floor_ppm) : unknown_ppm, lagShapeShare * lag[k]!),
  );
  const jump = jumps(value);
  const kept = new Float64Array(n);
  const lasting = new Float64Array(n);
  const spikes = new Uint8Array(n);
  for (let k = 0; k < n; k++) {
    const before = Math.max(0, k - 1);
    const gap = Math.max(1, (pressure[k]! - pressure[before]!) / spacing);
    const misshapen = lagShapeShare * (lag[k]! - lag[before]!);
    const change = gap * jump[k]! ** 2 + misshapen ** 2;
    kept[k] = Math.min(mostKept, Math.max(0, 1 - change / 2 / (scatter[k]! * scatter[before]!)));
    lasting[k] = learnt * Math.max(1, (memory[k]! * (1 - kept[k]!)) / (1 + kept[k]!));
    const around = median(value.subarray(Math.max(0, k - neighbours), k + neighbours + 1));
    if (Math.abs(value[k]! - around) > spike * scatter[k]!) spikes[k] = 1;
  }
  return { scatter, kept, lasting, spike: spikes };
}

/**
 * Standard deviation of the step from the value before, of the roughest stretch that is near. A smooth course changes
 * more over several values than independent steps would: the most that any lag shows for one step counts.
 */
function jumps(value: Float64Array): Float64Array {
  const n = value.length;
  const half = jumpReach / 2;
  const scales: number[] = [];
  for (let from = 0; from === 0 || from + half < n; from += half) {
    const own = value.subarray(from, from + jumpReach);
    scales.push(
      Math.max(
        ...jumpLags.map((lag) => {
          const steps = new Float64Array(Math.max(0, own.length - lag));
          for (let k = 0; k < steps.length; k++) steps[k] = own[k + lag]! - own[k]!;
          return winsorisedScale(steps) / Math.sqrt(lag) || 0;
        }),
      ),
    );
  }
  return new Float64Array(n).map((_, k) => {
    // Stretches overlap by half: this value lies in the middle of one or between two.
    const nearest = Math.round(k / half) - 1;
    let most = floor_ppm;
    for (let j = nearest - 1; j <= nearest + 1; j++) {
      const scale = scales[Math.min(scales.length - 1, Math.max(0, j))]!;
      if (scale > most) most = scale;
    }
    return most;
  });
}
