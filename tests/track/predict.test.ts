// What passes between one cast and the next: variances of independent steps add in time, a rate times hours is a change.
import { describe, expect, it } from "vitest";
import { sharedErrors } from "../../src/evidence/lines.js";
import type { Doubt } from "../../src/model/eventHistory.js";
import { addVariance, certainZero } from "../../src/model/gaussian.js";
import type { Hypothesis } from "../../src/model/hypothesis.js";
import { cellIndex, sharedIndex } from "../../src/model/layout.js";
import { usualNoise } from "../../src/model/noise.js";
import type { ErrorEvolutions } from "../../src/model/sharedError.js";
import { layoutOf } from "../../src/track/layout.js";
import { retain } from "../../src/track/maintain.js";
import { predict } from "../../src/track/predict.js";

const layout = layoutOf(["primary"]);
const noise = usualNoise(sharedErrors);
type Slot = Parameters<typeof cellIndex>[2];
const at = (slot: Slot) => cellIndex(layout, "primary", slot);

function predicted(
  days: number,
  rate = 0,
  evolutions: ErrorEvolutions = {},
  inWater_days = 0,
  onDeck?: "less",
) {
  const state = certainZero(layout.size);
  state.mean[at("filmUp")] = -40;
  state.mean[at("filmRate")] = rate;
  addVariance(state, sharedIndex(layout, "deepWater"), 25);
  const film = {
    kind: "drift",
    ...(onDeck === undefined ? {} : { onDeck }),
    since: { cast: "001", when: "from the start" },
    removals: [],
  } as const;
  const events = { cells: { primary: { film } } };
  const before: Hypothesis = { logWeight: 0, state, events };
  const [passed] = predict(layout, before, { days, evolutions, inWater_days }, noise);
  const { mean, covariance } = passed!.state;
  const between = (one: Slot, other: Slot) => covariance[at(one) * layout.size + at(other)]!;
  return { mean, variance: (index: number) => covariance[index * layout.size + index]!, between };
}

describe("from one cast to the next", () => {
  it("the variance of the clean gain grows in proportion to time, between those of two published cells", () => {
    // Movements in a month, in salinity; 1 ppm is 3.9e-5. A well-kept cell [JAMSTECRecords], one that drifted [CruiseReports2022].
    const perDay = [0.0001, 0.003].map((moved) => (moved / 3.9e-5 / Math.sqrt(30)) ** 2);
    for (const days of [0.25, 1, 4, 30]) {
      const variance = predicted(days).variance(at("clean"));
      expect(variance / days).toBeCloseTo(2.25, 10);
      expect(variance / days).toBeGreaterThan(perDay[0]!);
      expect(variance / days).toBeLessThan(perDay[1]!);
    }
  });

  it("the offset and the rate of growth spread in proportion to time as well", () => {
    for (const slot of ["offset", "filmRate"] as const) {
      expect(predicted(4).variance(at(slot)) / predicted(1).variance(at(slot))).toBeCloseTo(4, 10);
    }
  });

  it("a film that grows by -20 ppm a day has grown by -30 ppm after 1.5 days, partly within the cast", () => {
    const { mean } = predicted(1.5, -20, {}, 0.25);
    expect(mean[at("filmDown")]).toBeCloseTo(-40 - 20 * 1.25, 10);
    expect(mean[at("filmUp")]).toBeCloseTo(-40 - 20 * 1.5, 10);
  });

  it("a film that grows less on deck grows in the water by its rate times the time", () => {
    const usual = predicted(0.5, -200, {}, 0.125);
    const less = predicted(0.5, -200, {}, 0.125, "less");
    const within = (one: typeof less) => one.mean[at("filmUp")]! - one.mean[at("filmDown")]!;
    expect(within(less)).toBeCloseTo(-200 * 0.125, 10);
    expect(within(less)).toBeCloseTo(within(usual), 10);
    // On deck 25 % of the rate, from 10 to 40 %; it never shrinks, to two standard deviations nearly (judgement).
    const onDeck = -200 * 0.375;
    expect(less.mean[at("filmDown")]).toBeCloseTo(-40 + 0.25 * onDeck, 10);
    // A rate that changes has an effect in proportion to the growth; the share on deck has its own uncertainty.
    const fixed = noise.film ** 2;
    const ofRate = (usual.variance(at("filmDown")) - fixed) * 0.25 ** 2;
    const spread = less.variance(at("filmDown")) - fixed - ofRate;
    expect(Math.sqrt(spread)).toBeCloseTo(Math.abs(0.15 * onDeck), 10);
  });

  it("a rate that walks at random also changes the growth of the same interval, as the integral of a Wiener process", () => {
    // Its variance is q t^3 / 3, its covariance with the end of the walk q t^2 / 2 (textbook result).
    const days = 2;
    const walked = predicted(days, -300, {}, 0.125);
    const q = walked.variance(at("filmRate")) / days;
    const film = walked.variance(at("filmUp")) - (1 + 0.25 ** 2) * noise.film ** 2;
    expect(film / ((q * days ** 3) / 3)).toBeGreaterThan(0.9);
    expect(film / ((q * days ** 3) / 3)).toBeLessThan(1.6);
    expect(walked.between("filmUp", "filmRate") / ((q * days ** 2) / 2)).toBeCloseTo(1, 10);
  });

  it("the variance of the deep water grows by that of its walk", () => {
    const { variance } = predicted(1, 0, { deepWater: { kind: "random-walk", variance: 144 } });
    expect(variance(sharedIndex(layout, "deepWater"))).toBeCloseTo(25 + 144, 10);
  });

  it("different water resets the deep-water error", () => {
    const { variance } = predicted(1, 0, { deepWater: { kind: "independent", variance: 9 } });
    expect(variance(sharedIndex(layout, "deepWater"))).toBeCloseTo(9, 10);
  });

  it("of an error that is partly new a share stays; that of a bad run stays as a whole with that probability, or not at all", () => {
    const run = sharedIndex(layout, "run");
    const evolutions = { run: { kind: "partly-new", kept: 0.3 } } as const;
    const usual = noise.errors.run!;
    const passed = (doubt?: Doubt) => {
      const state = certainZero(layout.size);
      state.mean[run] = -300;
      addVariance(state, run, 100);
      const doubts = doubt === undefined ? [] : [doubt];
      const before: Hypothesis = { logWeight: 0, state, events: { cells: {}, doubts } };
      const interval = { days: 1, evolutions, inWater_days: 0 };
      return predict(layout, before, interval, noise).map(({ logWeight, state, events }) => ({
        probability: Math.exp(logWeight),
        mean: state.mean[run],
        variance: state.covariance[run * layout.size + run]!,
        doubts: events.doubts ?? [],
      }));
    };
    const close = (value: number) => expect.closeTo(value, 10);
    expect(passed()).toEqual([
      {
        probability: 1,
        mean: close(-90),
        variance: close(0.09 * 100 + 0.91 * usual ** 2),
        doubts: [],
      },
    ]);
    const bad = { cause: "reference-error" };
    const lasted = { ...bad, lasted: true } as const;
    // Runs of one or two casts are usual [CruiseReports2021]. So after the second cast a bad run is less likely to go on.
    for (const [doubt, goesOn] of [
      [bad, 0.3],
      [lasted, 0.1],
    ] as const) {
      expect(passed(doubt)).toEqual([
        { probability: close(goesOn), mean: -300, variance: 100, doubts: [lasted] },
        { probability: close(1 - goesOn), mean: 0, variance: close(usual ** 2), doubts: [] },
      ]);
    }
  });
});

describe("films of two cells, from one cast to the next", () => {
  const both = ["primary", "secondary"] as const;
  const pair = layoutOf(both);
  const filmUp = (cell: (typeof both)[number]) => cellIndex(pair, cell, "filmUp");
  /** The film of the primary cell, its standard deviation, and that of the difference of both. */
  const spread = (
    onsets: readonly [string, string],
    when: "before" | "from the start" = "before",
    removed = false,
  ) => {
    const state = certainZero(pair.size);
    const removals = removed ? [{ cast: "003", when: "before", how: "shed in part" } as const] : [];
    const cells = Object.fromEntries(
      both.map((cell, i) => {
        state.mean[filmUp(cell)] = -200;
        const since = { cast: onsets[i]!, when } as const;
        return [cell, { film: { kind: "step", since, removals } as const }];
      }),
    );
    const before: Hypothesis = { logWeight: 0, state, events: { cells } };
    const interval = { days: 0.25, evolutions: {}, inWater_days: 0.1 };
    const { mean, covariance } = predict(pair, before, interval, noise)[0]!.state;
    const [one, other] = [filmUp("primary"), filmUp("secondary")];
    const of = (i: number, j: number) => covariance[i * pair.size + j]!;
    return {
      film: mean[one]!,
      ofFilm: Math.sqrt(of(one, one)),
      ofDifference: Math.sqrt(of(one, one) + of(other, other) - 2 * of(one, other)),
    };
  };

  it("change alike if they came at once, so that the pair hardly shows it, and otherwise are constant", () => {
    const alike = spread(["002", "002"]);
    expect(alike.ofFilm / Math.abs(alike.film)).toBeGreaterThan(0.09);
    expect(alike.ofDifference / alike.ofFilm).toBeLessThan(0.2);
    const apart = spread(["002", "004"]);
    expect(apart.ofFilm / Math.abs(apart.film)).toBeLessThan(0.02);
    const old = spread(["001", "001"], "from the start");
    expect(old.ofFilm / Math.abs(old.film)).toBeLessThan(0.02);
  });

  it("become smaller on every cast once they have begun to wash off", () => {
    const steady = spread(["002", "004"]);
    const washed = spread(["002", "004"], "before", true);
    expect(steady.film).toBeCloseTo(-200, 8);
    expect(washed.film).toBeGreaterThan(-195);
    expect(washed.film).toBeLessThan(-160);
    expect(washed.ofFilm / Math.abs(washed.film)).toBeGreaterThan(0.08);
  });
});

describe("a film of which an uncertain share stays", () => {
  it("the variance of a retained film is that of a product of independent numbers: E x^2 E y^2 - (E x E y)^2", () => {
    const state = certainZero(layout.size);
    state.mean[at("filmUp")] = -100;
    addVariance(state, at("filmUp"), 40 ** 2);
    retain(layout, state, "primary", "filmUp", { mean: 0.5, sd: 0.2 });
    const expected = (100 ** 2 + 40 ** 2) * (0.5 ** 2 + 0.2 ** 2) - (100 * 0.5) ** 2;
    expect(state.mean[at("filmUp")]).toBeCloseTo(-50, 10);
    const index = at("filmUp");
    expect(state.covariance[index * layout.size + index]).toBeCloseTo(expected, 8);
  });
});
