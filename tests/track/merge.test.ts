import { describe, expect, it } from "vitest";
import type { EventHistory } from "../../src/model/eventHistory.js";
import type { Hypothesis } from "../../src/model/hypothesis.js";
import { mergeAndPrune } from "../../src/track/merge.js";

const none: EventHistory = { cells: {} };
const fouled: EventHistory = {
  cells: {
    primary: { film: { kind: "step", since: { cast: "002", when: "before" }, removals: [] } },
  },
};

function hypothesis(mean: number, sd: number, weight: number, events = none): Hypothesis {
  return {
    logWeight: Math.log(weight),
    events,
    state: { mean: Float64Array.of(mean), covariance: Float64Array.of(sd ** 2) },
  };
}

const means = (kept: readonly Hypothesis[]) => kept.map(({ state }) => state.mean[0]!);
const weights = (kept: readonly Hypothesis[]) => kept.map(({ logWeight }) => Math.exp(logWeight));

describe("hypotheses after a cast", () => {
  it("two with one history and states far apart stay two", () => {
    const kept = mergeAndPrune([hypothesis(0, 10, 0.75), hypothesis(-200, 10, 0.25)]);
    expect(means(kept)).toEqual([0, -200]);
    expect(weights(kept)[0]).toBeCloseTo(0.75, 12);
  });

  it("two with one history and as many standard deviations in one as in the other become one, with the moments of both", () => {
    const [one] = mergeAndPrune([hypothesis(0, 10, 0.75), hypothesis(8, 12, 0.25)]);
    // The law of total variance.
    expect(one!.state.mean[0]).toBeCloseTo(2, 12);
    const total = 0.75 * (10 ** 2 + 2 ** 2) + 0.25 * (12 ** 2 + 6 ** 2);
    expect(one!.state.covariance[0]).toBeCloseTo(total, 9);
    expect(one!.logWeight).toBeCloseTo(0, 12);
  });

  it("a narrow and a wide one stay two: their sum would lose the tail of the wide one", () => {
    expect(mergeAndPrune([hypothesis(0, 10, 0.5), hypothesis(0, 100, 0.5)])).toHaveLength(2);
  });

  it("equal states with different histories stay two", () => {
    expect(mergeAndPrune([hypothesis(0, 10, 0.5), hypothesis(0, 10, 0.5, fouled)])).toHaveLength(2);
  });

  it("one that is a billion times less probable is dropped, and the weights of the rest sum to one", () => {
    const kept = mergeAndPrune([
      hypothesis(0, 10, 0.6),
      hypothesis(-200, 10, 0.2),
      hypothesis(-900, 10, 0.6e-9),
    ]);
    expect(means(kept)).toEqual([0, -200]);
    expect(weights(kept).reduce((sum, w) => sum + w, 0)).toBeCloseTo(1, 12);
  });
});
