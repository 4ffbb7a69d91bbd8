import { beforeAll, describe, expect, it } from "vitest";
import type { CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { causeOf } from "../../src/causes/causeOf.js";
import { usualBottleNoise } from "../../src/evidence/bottles/bottleNoise.js";
import { type Hypothesis, normalise } from "../../src/model/hypothesis.js";
import { gainOf, type Observation } from "../../src/model/observation.js";
import { defaultRecovery } from "../../src/model/recovery.js";
import { randomScenario, simulateCruise } from "../../src/simulate/index.js";
import { layoutOf } from "../../src/track/layout.js";
import { track } from "../../src/track/track.js";
import type { TrackedCast } from "../../src/track/tracked.js";
import { type BottleDepth, calmDepths } from "../../src/verdict/gather/calmDepths.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";
import { cellsOf } from "../../src/verdict/gather/knownCruise.js";
import { bottlesOnNextCast, secondRun } from "../../src/verdict/plan/bottleSamplings.js";
import { outlookAfter } from "../../src/verdict/plan/outlook.js";
import { nextCast, type Planning, type Sampling } from "../../src/verdict/plan/samplings.js";
import { standingOf } from "../../src/verdict/plan/settled.js";
import { wouldDecide } from "../../src/verdict/plan/wouldDecide.js";
import { inputOf, recovery } from "../track/observations.js";

/** 0.002 in salinity at SP 35. */
const target_ppm = 51;

describe("the expected standing of a verdict after a sampling", () => {
  /** Two hypotheses of one number, and a reading of it. */
  const pair = [
    { weight: 0.6, mean: -40, variance: 20 ** 2 },
    { weight: 0.4, mean: 10, variance: 8 ** 2 },
  ];
  const noise = 15;
  const branches = pair.map(
    ({ weight, mean, variance }, i): Hypothesis => ({
      logWeight: Math.log(weight),
      state: { mean: Float64Array.of(mean), covariance: Float64Array.of(variance) },
      events: { cells: i === 0 ? { primary: {} } : {} },
    }),
  );
  const larger = (held: readonly Hypothesis[]) => {
    const leading = Math.max(...held.map(({ logWeight }) => Math.exp(logWeight)));
    return { leading, settled: leading >= 0.9 };
  };

  it("the expected standing equals the integral over all readings, for two hypotheses and one number", () => {
    // Over a fine grid of readings: the density of each by Bayes' rule written out, nothing of the library.
    let [settles, leading] = [0, 0];
    const step = 0.01;
    for (let y = -300; y < 300; y += step) {
      const joint = pair.map(({ weight, mean, variance }) => {
        const total = variance + noise ** 2;
        return (
          (weight * Math.exp((-0.5 * (y - mean) ** 2) / total)) / Math.sqrt(2 * Math.PI * total)
        );
      });
      const density = joint[0]! + joint[1]!;
      const most = Math.max(...joint);
      leading += most * step;
      if (most >= 0.9 * density) settles += density * step;
    }
    const rows = [{ row: Float64Array.of(1), variance: noise ** 2 }];
    const found = outlookAfter(branches, rows, larger, 4000);
    expect(found.leading).toBeCloseTo(leading, 3);
    expect(found.settles).toBeCloseTo(settles, 2);
    // The usual number of draws is right to what it is told to.
    const usual = outlookAfter(branches, rows, larger);
    expect(Math.abs(usual.settles - settles)).toBeLessThan(0.05);
  });

  it("two readings equal one of half the variance", () => {
    const row = Float64Array.of(1);
    const twice = Array.from({ length: 2 }, () => ({ row, variance: 2 * noise ** 2 }));
    const once = outlookAfter(branches, [{ row, variance: noise ** 2 }], larger, 4000);
    expect(outlookAfter(branches, twice, larger, 4000).leading).toBeCloseTo(once.leading, 2);
  });

  it("a sampling changes the mean as conditioning does: an exact reading leaves no uncertainty", () => {
    const rows = [{ row: Float64Array.of(1), variance: 1e-6 }];
    const seen: number[] = [];
    outlookAfter(
      branches,
      rows,
      (held) => {
        for (const { state, logWeight } of held) if (logWeight > -3) seen.push(state.mean[0]!);
        return larger(held);
      },
      8,
    );
    // All hypotheses that are left agree on what was read, whichever drew it.
    expect(seen.length).toBeGreaterThanOrEqual(8);
    expect(Math.max(...seen)).toBeLessThan(60);
    expect(Math.min(...seen)).toBeGreaterThan(-100);
  });
});

/** Bottles above 800 dbar alone have seen a cell that reads fresh by 70 ppm. */
const shallowOnly = (): { readonly tracked: TrackedCast; readonly planning: Planning } => {
  const cells: readonly CellName[] = ["primary"];
  const input = {
    ...inputOf(0, { gains: { primary: { down: -70, up: -70 } }, bottles: 0 }, () => 0),
    observations: [700, 720, 740, 760, 780, 800].map(
      (pressure_dbar): Observation => ({
        line: "bottles",
        cast: "001",
        design: [gainOf("primary", "up"), { shared: "run", weight: 1 }],
        unit: "ppm",
        value: -70,
        variance: 25 ** 2,
        pressure_dbar,
      }),
    ),
  };
  const tracked = track(cells, [input], recovery)[0]!;
  const layout = layoutOf(cells);
  return {
    tracked,
    planning: {
      layout,
      input,
      days: 0.25,
      noise: tracked.noise,
      scans: true,
      bottleNoise: usualBottleNoise,
    },
  };
};

/** Calm water, as cold and salty at every depth: what differs is the pressure. */
const stopAt = (pressure_dbar: number): BottleDepth => ({
  pressure_dbar,
  water: { conductivity_mS_cm: 33, temperature_C: 3 },
  salinityGradient_per_dbar: 0.0001,
});

/** The probability of the likelier of two causes if it is one of them, the hypotheses keeping the cause they have now. */
const likelierOf = (
  { layout }: Planning,
  { branches, rows }: Sampling,
  causes: readonly string[],
  draws = 1000,
): number => {
  const ours = normalise(branches.filter((h) => causes.includes(causeOf(layout, h, "primary"))));
  const own = ours.map((h) => causeOf(layout, h, "primary"));
  const after = outlookAfter(
    ours,
    rows,
    (held) => {
      const first = held.reduce(
        (sum, h, i) => sum + (own[i] === causes[0] ? Math.exp(h.logWeight) : 0),
        0,
      );
      return { leading: Math.max(first, 1 - first), settled: false };
    },
    draws,
  );
  return after.leading;
};

describe("bottles on the next cast", () => {
  const { tracked, planning } = shallowOnly();
  const causes = ["calibration-shift", "pressure-response"];

  it("more bottles never lower the expected probability of the likelier cause (Bayes' theorem)", () => {
    for (const depth of [stopAt(100), stopAt(3000)]) {
      const expected = [3, 4, 6, 8, 12, 24].map((count) =>
        likelierOf(
          planning,
          bottlesOnNextCast(planning, tracked.afterMaintenance, depth, count),
          causes,
        ),
      );
      for (const [i, value] of expected.slice(1).entries()) {
        // The same points are drawn for all, 1000 of them.
        expect(value).toBeGreaterThan(expected[i]! - 0.003);
      }
      const none = likelierOf(planning, nextCast(planning, tracked.afterMaintenance), causes);
      expect(expected[0]).toBeGreaterThan(none - 0.003);
    }
  });

  it("deep bottles distinguish pressure response from calibration shift better than bottles at earlier depths", () => {
    const at = (depth: number) =>
      likelierOf(
        planning,
        bottlesOnNextCast(planning, tracked.afterMaintenance, stopAt(depth), 4),
        causes,
      );
    // A gain of -70 ppm is a calibration with 95 % already, so there is little left to tell.
    expect(at(4000)).toBeGreaterThan(at(750) + 0.01);
    expect(at(4000)).toBeGreaterThan(at(1500));
  });

  it("a second run of the samples gives no information on a film, and much on a bad run", () => {
    const names = ["fouling", "calibration-shift"];
    const unseen = { branches: tracked.hypotheses, rows: [] };
    const now = likelierOf(planning, unseen, names, 2);
    const then = likelierOf(planning, secondRun(planning, tracked.hypotheses)!, names);
    expect(Math.abs(then - now)).toBeLessThan(0.02);

    // Four sound casts, then bottles that are off by 0.004 in salinity.
    const cells: readonly CellName[] = ["primary"];
    const sound = { gains: { primary: { down: 0, up: 0 } } };
    const inputs = [0, 1, 2, 3, 4].map((i) =>
      inputOf(i, i === 4 ? { ...sound, reference: 100 } : sound, () => 0),
    );
    const last = track(cells, inputs, recovery).at(-1)!;
    const after = { ...planning, input: inputs[4]!, noise: last.noise };
    const held = last.hypotheses;
    const runs = ["reference-error", "calibration-shift"];
    const before = likelierOf(after, { branches: held, rows: [] }, runs, 2);
    const bad = likelierOf(after, secondRun(after, held)!, runs);
    expect(before).toBeLessThan(0.95);
    expect(bad).toBeGreaterThan(before + 0.5 * (1 - before));
  });
});

// One open verdict from each of many simulated cruises, of which the bottles that were asked about are then taken.
describe("the predicted value of four bottles, on simulated cruises with one bottle on each cast", () => {
  const casts = 5;
  const bottles = 4;
  interface Taken {
    readonly promised: number;
    readonly settled: boolean;
    readonly leadingPromised: number;
    readonly leading: number;
  }
  const taken: Taken[] = [];

  beforeAll(() => {
    for (let seed = 1; seed <= 90; seed++) {
      const found = openAndTaken(seed);
      if (found !== undefined) taken.push(found);
    }
  });

  function followed(cruise: Cruise, cells: readonly CellName[]) {
    const evidence = [...cruiseEvidence(cruise)];
    const inputs = evidence.map(({ tracked }) => tracked);
    return { evidence, tracked: track(cells, inputs, defaultRecovery) };
  }

  function openAndTaken(seed: number): Taken | undefined {
    const drawn = randomScenario(seed);
    const events = (drawn.events ?? []).filter(
      (event) =>
        event.kind !== "reference-offset" &&
        ("cast" in event ? event.cast : "fromCast" in event ? event.fromCast : 1) <= casts &&
        !("afterCast" in event && event.afterCast > casts),
    );
    const scenario = { ...drawn, casts, bottles: 1, events };
    const { cruise } = simulateCruise(scenario);
    // Closures alone: no scans to go through, and what bottles tell is in question.
    const bare: Cruise = { ...cruise, casts: cruise.casts.map(({ data: _, ...cast }) => cast) };
    const cells = cellsOf(bare);
    const layout = layoutOf(cells);
    const cell = cells[seed % cells.length]!;
    const stands = (held: readonly Hypothesis[]) => standingOf(layout, cell, held, target_ppm);
    const { evidence, tracked } = followed(bare, cells);
    for (const [k, held] of tracked.slice(0, -1).entries()) {
      if (stands(held.hypotheses).settled) continue;
      // What is held against one cast passes with it, whatever is sampled.
      const doubted = held.hypotheses.filter(({ events }) => events.doubts !== undefined);
      if (doubted.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0) > 0.1) continue;
      const depths = calmDepths(cruise.casts[k]!.data, []);
      const depth = depths[seed % depths.length]!;
      const planning: Planning = {
        layout,
        input: evidence[k]!.tracked,
        days: drawn.hoursBetweenCasts! / 24,
        noise: held.noise,
        scans: false,
        bottleNoise: evidence[k]!.bottleNoise,
      };
      // A bad run stays a question in a promise; the tracker lets it pass with its cast, and so it is done here.
      const now = held.afterMaintenance.map((h) => ({ ...h, events: { cells: h.events.cells } }));
      const { branches, rows } = bottlesOnNextCast(planning, now, depth, bottles);
      const promise = outlookAfter(branches, rows, stands);

      const bottlePressures_dbar = Array<number>(bottles).fill(Math.round(depth.pressure_dbar));
      const next = cruise.casts[k + 1]!.id;
      const until = cruise.casts.slice(0, k + 1).map(({ id }) => id);
      const again = followed(
        {
          ...bare,
          casts: bare.casts.slice(0, k + 2),
          bottles: [
            ...bare.bottles.filter((bottle) => until.includes(bottle.cast)),
            ...simulateCruise({ ...scenario, bottlePressures_dbar })
              .cruise.bottles.filter((bottle) => bottle.cast === next)
              .map((bottle) => ({ ...bottle, run: "a run of its own" })),
          ],
        },
        cells,
      );
      const then = stands(again.tracked[k + 1]!.hypotheses);
      return {
        promised: promise.settles,
        settled: then.settled,
        leadingPromised: promise.leading,
        leading: then.leading,
      };
    }
    return undefined;
  }

  const mean = (values: readonly number[]) =>
    values.reduce((sum, value) => sum + value, 0) / values.length;

  it("the prediction ignores new events before the next cast: more than half of the predicted number is settled", () => {
    const settled = taken.filter((one) => one.settled).length;
    const promised = taken.reduce((sum, one) => sum + one.promised, 0);
    expect(taken.length).toBeGreaterThan(25);
    expect(settled).toBeGreaterThan(0.5 * promised);
    expect(settled).toBeLessThan(1.2 * promised);
  });

  it("the prediction distinguishes samplings that settle from those that do not", () => {
    const likely = taken.filter(({ promised }) => promised >= 0.5);
    const unlikely = taken.filter(({ promised }) => promised < 0.5);
    const share = (some: readonly Taken[]) => mean(some.map(({ settled }) => (settled ? 1 : 0)));
    expect(Math.min(likely.length, unlikely.length)).toBeGreaterThan(6);
    expect(share(likely)).toBeGreaterThan(share(unlikely) + 0.3);
  });

  it("the probability of the leading cause comes out as expected, to seven hundredths", () => {
    const expected = mean(taken.map(({ leadingPromised }) => leadingPromised));
    expect(Math.abs(mean(taken.map(({ leading }) => leading)) - expected)).toBeLessThan(0.07);
  });
});

describe("the sentence", () => {
  const question = {
    cell: "primary",
    causes: [
      { cause: "fouling", probability: 0.62 },
      { cause: "calibration-shift", probability: 0.33 },
    ],
  } as const;
  const option = (what: string, settles: number, leading = 0.9) => ({
    what,
    outlook: { settles, leading },
  });

  it("the sentence names the first sufficient sampling, and later ones are not computed", () => {
    const asked: string[] = [];
    function* options() {
      for (const one of [
        option("two bottles", 0.4),
        option("a wash", 0.84),
        option("the spare", 1),
      ]) {
        asked.push(one.what);
        yield one;
      }
    }
    expect(wouldDecide(question, options())).toBe(
      "Not settled for the primary cell: fouling (62 %) or calibration-shift (33 %). A wash would decide in 8 of 10 cases.",
    );
    expect(asked).toEqual(["two bottles", "a wash"]);
  });

  it("without a sufficient sampling the sentence names the best, or states that none is useful", () => {
    const best = wouldDecide(question, [
      option("two bottles", 0.1, 0.65),
      option("a wash", 0.5, 0.8),
    ]);
    expect(best).toMatch(
      /No measurement .* is certain .* The best is a wash. It would decide in 5 of 10 cases/,
    );
    expect(best).toContain("80 % on average");
    const nothing = wouldDecide(question, [
      option("two bottles", 0, 0.63),
      option("a wash", 0.02, 0.64),
    ]);
    expect(nothing).toContain("Two bottles would bring the likelier cause to 63 % on average");
    expect(wouldDecide(question, [])).toMatch(/Nothing that can be done now/);
  });
});
