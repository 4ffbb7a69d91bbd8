import { describe, expect, it } from "vitest";
import { collapseMixture } from "../../src/model/collapseMixture.js";
import {
  add,
  assign,
  certainZero,
  condition,
  copyOf,
  type Gaussian,
  redraw,
  truncateNotPositive,
  widen,
} from "../../src/model/gaussian.js";
import { applyTransition, type Entries, smoothedEntries } from "../../src/model/past.js";
import { allSteps, type FilterStep, startSegment, withStep } from "../../src/model/updates.js";
import { storeForSmoothing } from "../../src/track/storeForSmoothing.js";
import { deviates } from "./observations.js";

const size = 4;
const row = (normal: () => number) => Float64Array.from({ length: size }, normal);

/** A state that remembers one cast, and what one of two hypotheses then did to it. */
function origin(normal: () => number): Gaussian {
  const state = certainZero(size);
  for (let j = 0; j < size; j++) redraw(state, j, normal(), 1 + normal() ** 2);
  condition(state, row(normal), normal(), 1);
  return storeForSmoothing(state, [[row(normal), row(normal)]], [1, 0]);
}

function goOn(state: Gaussian, normal: () => number): Gaussian {
  const own = copyOf(state);
  widen(own, row(normal), 0, 2);
  add(own, 0, 1, 0.5);
  condition(own, row(normal), normal(), 0.7);
  truncateNotPositive(own, 2);
  assign(own, 3, 0, 0.8, 0.3);
  condition(own, row(normal), normal(), 0.4);
  return own;
}

describe("the stored past of hypotheses", () => {
  it("pasts of one origin are merged exactly, as updates or as values", () => {
    const normal = deviates(77);
    for (let trial = 0; trial < 20; trial++) {
      const start = origin(normal);
      const states = [goOn(start, normal), goOn(start, normal)];
      const share = [0.7, 0.3];
      const [a, b] = states.map(({ past }) => applyTransition(past!.recent[0]!, past!.since)) as [
        Entries,
        Entries,
      ];
      const one = collapseMixture(states.map((state, k) => ({ share: share[k]!, state })));
      const [found] = smoothedEntries(one.past!);
      for (let k = 0; k < 2; k++) {
        const mean = 0.7 * a.mean[k]! + 0.3 * b.mean[k]!;
        expect(found!.mean[k]).toBeCloseTo(mean, 9);
        const variance =
          0.7 * (a.covariance[3 * k]! + (a.mean[k]! - mean) ** 2) +
          0.3 * (b.covariance[3 * k]! + (b.mean[k]! - mean) ** 2);
        expect(found!.covariance[3 * k]).toBeCloseTo(variance, 9);
        for (let j = 0; j < size; j++) {
          const [x, y] = [states[0]!.mean[j]!, states[1]!.mean[j]!];
          const centre = 0.7 * x + 0.3 * y;
          const cross =
            0.7 * (a.cross[k * size + j]! + (a.mean[k]! - mean) * (x - centre)) +
            0.3 * (b.cross[k * size + j]! + (b.mean[k]! - mean) * (y - centre));
          expect(found!.cross[k * size + j]).toBeCloseTo(cross, 9);
        }
      }
    }
  });

  it("later evidence updates a cast long past exactly as if its values were in the state", () => {
    const normal = deviates(78);
    const first = origin(normal);
    let whole = first;
    let entries = first.past!.recent[0]!;
    for (let cast = 0; cast < 60; cast++) {
      const after = goOn(whole, normal);
      entries = applyTransition(entries, after.past!.since);
      whole = storeForSmoothing(after, [[row(normal), row(normal)]], [0, 1]);
    }
    const found = smoothedEntries(whole.past!);
    expect(found).toHaveLength(61);
    expect(whole.past!.recent.length).toBeLessThan(30);
    for (let k = 0; k < 2; k++) {
      expect(found[0]!.mean[k]).toBeCloseTo(entries.mean[k]!, 8);
      expect(found[0]!.covariance[3 * k]).toBeCloseTo(entries.covariance[3 * k]!, 8);
    }
    expect(found[0]!.shares).toEqual(Float64Array.of(1, 0));
  });
});

describe("the updates of a hypothesis", () => {
  const step = (probability: number): FilterStep => ({
    kind: "clean",
    cell: "primary",
    retained: { mean: 0.5, sd: 0.1 },
    probability,
  });

  it("the updates of a hypothesis are in order, from the start of the oldest stored segment", () => {
    let path = withStep({ start: certainZero(1) }, step(0));
    const starts: Gaussian[] = [];
    for (let k = 1; k <= 6; k++) {
      starts.push(certainZero(1));
      path = withStep(withStep(startSegment(path, starts.at(-1)!, 2), step(k)), step(k + 0.5));
    }
    const { start, steps } = allSteps(path);
    expect(start).toBe(starts[3]);
    expect(steps.map((one) => (one.kind === "clean" ? one.probability : Number.NaN))).toEqual([
      4, 4.5, 5, 5.5, 6, 6.5,
    ]);
  });
});
