import { describe, expect, it } from "vitest";
import { addVariance, certainZero, condition, redraw } from "../../src/model/gaussian.js";
import { smoothedEntries } from "../../src/model/past.js";
import { storeForSmoothing } from "../../src/track/storeForSmoothing.js";

/**
 * The local level model on the yearly flow of the Nile at Aswan, 1871 to 1970, 1e8 m3: the worked example of
 * [DurbinKoopman2012]. The series is public, printed there and in many textbooks.
 */
const flow = [
  1120, 1160, 963, 1210, 1160, 1160, 813, 1230, 1370, 1140, 995, 935, 1110, 994, 1020, 960, 1180,
  799, 958, 1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774, 840, 874, 694, 940, 833, 701,
  916, 692, 1020, 1050, 969, 831, 726, 456, 824, 702, 1120, 1100, 832, 764, 821, 768, 845, 864, 862,
  698, 845, 744, 796, 1040, 759, 781, 865, 845, 944, 984, 897, 822, 1010, 771, 676, 649, 846, 812,
  742, 801, 1040, 860, 874, 848, 890, 744, 749, 838, 1050, 918, 986, 797, 923, 975, 815, 1020, 906,
  901, 1170, 912, 746, 919, 718, 714, 740,
];
const printed = { observation: 15099, level: 1469.1 };
const one = Float64Array.of(1);
/** As good as no knowledge beforehand, and yet not so wide that digits are lost. */
const diffuse = 1e9;

/** The filter of the tracker and, through what it remembers, the smoother. */
function follow(observation: number, level: number) {
  let state = certainZero(1);
  redraw(state, 0, 0, diffuse);
  const predicted: number[] = [];
  const filtered: number[] = [];
  let logDensity = 0;
  flow.forEach((value, year) => {
    if (year > 0) addVariance(state, 0, level);
    predicted.push(state.covariance[0]!);
    const density = condition(state, one, value, observation);
    // The first year of a diffuse start tells nothing of the variances.
    if (year > 0) logDensity += density;
    filtered.push(state.mean[0]!);
    state = storeForSmoothing(state, [[one]], []);
  });
  return { predicted, filtered, logDensity, state, smoothed: smoothedEntries(state.past!) };
}

describe("the local level model on the flow of the Nile", () => {
  const { predicted, filtered, logDensity, smoothed } = follow(printed.observation, printed.level);

  it("the Nile filter starts and converges as the steady-state theory predicts", () => {
    expect(filtered[0]).toBeCloseTo(1120, 0);
    expect(predicted[1]).toBeCloseTo(printed.observation + printed.level, -0.5);
    const q = printed.level / printed.observation;
    const steady = (printed.observation * (q + Math.sqrt(q * q + 4 * q))) / 2;
    expect(predicted.at(-1)).toBeCloseTo(steady, 3);
  });

  it("the Nile model has the published log likelihood at the published variances", () => {
    // Diffuse log likelihood -632.54 [DurbinKoopman2012], without the term of the first year; from memory.
    expect(logDensity).toBeCloseTo(-632.54, 1);
  });

  it("the Nile likelihood has its maximum at the published variances", () => {
    const best = follow(printed.observation, printed.level).logDensity;
    for (const factor of [0.97, 1.03]) {
      expect(follow(printed.observation * factor, printed.level).logDensity).toBeLessThan(best);
      expect(follow(printed.observation, printed.level * factor).logDensity).toBeLessThan(best);
    }
  });

  it("the smoothed Nile level equals the joint solution of all years", () => {
    // The precision of the levels given all years is tridiagonal: each year's own, and each step's.
    const count = flow.length;
    const diagonal = flow.map((_, i) => {
      const steps = (i > 0 ? 1 : 0) + (i < count - 1 ? 1 : 0);
      return 1 / printed.observation + steps / printed.level + (i === 0 ? 1 / diffuse : 0);
    });
    const levels = solveTridiagonal(
      diagonal,
      -1 / printed.level,
      flow.map((value) => value / printed.observation),
    );
    levels.forEach((level, i) => {
      expect(smoothed[i]!.mean[0]).toBeCloseTo(level, 6);
    });
    for (const year of [0, 27, 99]) {
      const unit = flow.map((_, i) => (i === year ? 1 : 0));
      const variance = solveTridiagonal(diagonal, -1 / printed.level, unit)[year]!;
      expect(smoothed[year]!.covariance[0]! / variance).toBeCloseTo(1, 6);
    }
  });
});

function solveTridiagonal(diagonal: readonly number[], beside: number, right: readonly number[]) {
  const d = [...diagonal];
  const r = [...right];
  for (let i = 1; i < d.length; i++) {
    const factor = beside / d[i - 1]!;
    d[i]! -= factor * beside;
    r[i]! -= factor * r[i - 1]!;
  }
  const solution = new Array<number>(d.length);
  for (let i = d.length - 1; i >= 0; i--) {
    solution[i] = (r[i]! - (i < d.length - 1 ? beside * solution[i + 1]! : 0)) / d[i]!;
  }
  return solution;
}
