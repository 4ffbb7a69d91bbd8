import fc from "fast-check";
import { expect, test } from "vitest";
import { intensityNames } from "../../src/cast/maintenance.js";
import { type CauseName, causeNamed, causeNames, causes } from "../../src/causes/index.js";
import { adviceForAll } from "../../src/cleaning/decision/adviceForAll.js";
import { adviceSchema } from "../../src/cleaning/decision/adviceSchema.js";
import {
  type BeliefComponent,
  type Circumstances,
  decide,
} from "../../src/cleaning/decision/decide.js";
import { filmLeft } from "../../src/cleaning/decision/filmLeft.js";
import { defaultCosts } from "../../src/cleaning/decision/loss.js";
import {
  type CleaningOutcome,
  defaultRecovery,
  type Recovery,
  updateRecovery,
} from "../../src/model/recovery.js";
import { normalCdf } from "../../src/statistics/normal.js";
import { seeded } from "../evidence/seeded.js";
import { still, usualCircumstances } from "./usualDecision.js";

const uncertain = { ...still, cleanVariance: 100 };
function film(weight: number, mean: number, sd = 0): BeliefComponent {
  return { weight, cause: "fouling", filmMean_ppm: mean, filmVariance: sd * sd, ...uncertain };
}
function without(weight: number, cause: CauseName): BeliefComponent {
  return { weight, cause, filmMean_ppm: 0, filmVariance: 0, ...uncertain };
}

/** A cell that is off as much as the film would make it, for another reason. */
function shifted(weight: number, clean: number): BeliefComponent {
  return { ...without(weight, "calibration-shift"), cleanMean_ppm: clean };
}

const usual = usualCircumstances(50);

/** Every cleaning leaves exactly 0.2 of the film where it works, 0.9 where it fails; with odds of this file's own. */
const works = { rinse: 0.15, wash: 0.8, soak: 0.92, disinfect: 0.95, descale: 0.92, exchange: 1 };
const exact = Object.fromEntries(
  intensityNames.map((name) => [
    name,
    {
      probabilityWorks: works[name],
      retainedIfWorks: { mean: name === "exchange" ? 0 : 0.2, sd: 0 },
      retainedIfFails: { mean: 0.9, sd: 0 },
    },
  ]),
) as Recovery;

/** Cleanings in vain, of the film that is there now or of earlier ones. */
function failures(
  intensity: CleaningOutcome["intensity"],
  times: number,
  sameFilm: 0 | 1 = 1,
): Recovery {
  const retained = { mean: 0.95, sd: 0.05 };
  const outcome = { intensity, cell: "primary", retained, filmProbability: 1, sameFilm } as const;
  return updateRecovery(defaultRecovery, Array(times).fill(outcome), "primary");
}

test("a film of exactly 100 ppm, target 50: wash leaves it within with 0.8, soak with 0.92, so soak at 90 % and disinfect at 95 %", () => {
  // By hand: works leaves 20 ppm, within; fails leaves 90 ppm, not. So P is the probability that it works.
  const advice = decide([film(1, -100)], { ...usual, recovery: exact });
  expect(advice.intensity).toBe("soak");
  expect(advice.alternatives.map((rung) => rung.probabilityWithinTarget)).toEqual([
    expect.closeTo(0.15, 12),
    expect.closeTo(0.8, 12),
    expect.closeTo(0.92, 12),
    expect.closeTo(0.95, 12),
    expect.closeTo(0.92, 12),
    1,
  ]);
  // 0.92 x -20 + 0.08 x -90 = -25.6 ppm; at 0.002 for 50 ppm, -0.001024. sd sqrt(0.92 x 0.08) x 70 = 18.99 ppm.
  expect(advice.expectedResidual.ppm).toBeCloseTo(-25.6, 10);
  expect(advice.expectedResidual.salinity).toBeCloseTo(-0.001024, 12);
  expect(advice.expectedResidual.standardUncertainty).toBeCloseTo(18.99 * 4e-5, 6);
  // Two casts. Loss of the soak: 2 x 240 x 0.08 + 0.25 x 30 + 3 = 48.9; of the wash 2 x 240 x 0.2 + 0.25 x 15 + 1 = 100.75.
  expect(advice.alternatives[2]!.expectedLoss).toBeCloseTo(48.9, 10);
  expect(advice.alternatives[1]!.expectedLoss).toBeCloseTo(100.75, 10);
  const surer = decide([film(1, -100)], { ...usual, recovery: exact, confidence: 0.94 });
  expect(surer.intensity).toBe("disinfect");
});

test("film N(-100, 20), half of it left give or take 0.1, growth N(-5, 3): within 51 ppm with probability 0.392", () => {
  // By hand: mean -55; variance 0.25 x 400 + 0.01 x (10000 + 400) + 9 = 213; Phi(-4 / sqrt(213)) = 0.392013 (scipy).
  const half = { mean: 0.5, sd: 0.1 };
  const left = filmLeft(
    [{ ...film(1, -100, 20), growthMean_ppm: -5, growthVariance: 9 }],
    { probabilityWorks: 0.5, retainedIfWorks: half, retainedIfFails: half },
    51,
  );
  expect(left.mean_ppm).toBeCloseTo(-55, 10);
  expect(left.sd_ppm ** 2).toBeCloseTo(213, 8);
  expect(left.probabilityWithinTarget).toBeCloseTo(0.392013, 5);
});

test("taking the product of film and share as normal moves the probability by less than 0.02 (Monte Carlo)", () => {
  const { normal } = seeded(5);
  for (const share of [
    defaultRecovery.soak.retainedIfWorks,
    defaultRecovery.wash.retainedIfFails,
  ]) {
    for (const mean of [-60, -200, -500]) {
      let within = 0;
      const draws = 40_000;
      for (let i = 0; i < draws; i++) {
        const left = (mean + 20 * normal()) * (share.mean + share.sd * normal());
        if (left > -50) within++;
      }
      const { probabilityWithinTarget } = filmLeft(
        [film(1, mean, 20)],
        { probabilityWorks: 1, retainedIfWorks: share, retainedIfFails: share },
        50,
      );
      expect(Math.abs(within / draws - probabilityWithinTarget)).toBeLessThan(0.02);
    }
  }
});

test("a sound cell is rinsed", () => {
  const advice = decide([without(1, "sound")], usual);
  expect(advice).toMatchObject({ intensity: "rinse", deepClean: false, minutes: 5 });
  expect(advice.expectedResidual.probabilityWithinTarget).toBe(1);
});

test("a small film is rinsed, and an error of the clean gain is not cleaned for", () => {
  expect(decide([film(1, -20, 5)], usual).intensity).toBe("rinse");
  const off = { ...film(1, -20, 5), cleanMean_ppm: -400 };
  expect(decide([off], usual).intensity).toBe("rinse");
});

const notRemovable = causeNames.filter(
  (name) => !causes.some((cause) => cause.name === name && cause.removedByCleaning),
);

test.each(notRemovable)(
  "%s that leads is never given a deep clean, and gets its own action",
  (cause) => {
    const advice = decide([film(0.2, -800, 50), without(0.8, cause)], usual);
    expect(advice.deepClean).toBe(false);
    expect(advice.intensity).toBe("rinse");
    expect(advice.action.toLowerCase()).toContain(
      causeNamed(cause).action.replaceAll("the cell", "the primary cell").toLowerCase(),
    );
  },
);

test("fouling is a cause that cleaning mends", () => {
  expect(notRemovable).not.toContain("fouling");
});

test("with 20 minutes a film that needs a soak is washed, and ten minutes more would make it a soak", () => {
  const advice = decide([film(1, -200, 10)], { ...usual, minutesAvailable: 20 });
  expect(advice.intensity).toBe("wash");
  expect(advice.sensitivity).toContain("With 10 minutes more it would be a soak.");
  expect(advice.alternatives[2]).toMatchObject({ fits: false });
});

test("without any time the advice is the usual rinse", () => {
  expect(decide([film(1, -200, 10)], { ...usual, minutesAvailable: 0 }).intensity).toBe("rinse");
});

test("a soak is preferred to a disinfect only if a cast outside the target costs less than 48 minutes, or time is short", () => {
  // By hand: 0.25 x (75 - 30) + 6 - 3 = 14.25 minutes more for the disinfect; two casts, 0.15 less often: 14.25 / 0.3 = 47.5.
  const belief = [film(1, -200)];
  const at = (castOutsideTarget: number) =>
    decide(belief, { ...usual, costs: { ...defaultCosts, castOutsideTarget } }).intensity;
  expect(at(47)).toBe("soak");
  expect(at(48)).toBe("disinfect");
  expect(decide(belief, { ...usual, minutesAvailable: 74 }).intensity).toBe("soak");
});

test("in 45 minutes a film is soaked, and after a soak that failed it is not soaked again", () => {
  const after = (recovery: Recovery) =>
    decide([film(1, -200, 10)], { ...usual, recovery, minutesAvailable: 45 });
  expect(after(defaultRecovery).intensity).toBe("soak");
  const failed = after(failures("soak", 1));
  expect(failed.intensity).toBe("rinse");
  expect(failed.sensitivity).toContain("With 30 minutes more it would be a disinfect.");
});

test("after a failed soak the advice is to disinfect, after a failed disinfect on the same film the spare", () => {
  const after = (recovery: Recovery) =>
    decide([film(1, -200, 10)], { ...usual, recovery }).intensity;
  expect(after(failures("soak", 1))).toBe("disinfect");
  expect(after(failures("soak", 2))).toBe("disinfect");
  expect(after(failures("disinfect", 1))).toBe("exchange");
  expect(after(failures("disinfect", 1, 0))).toBe("disinfect");
  expect(after(failures("disinfect", 2, 0))).toBe("exchange");
});

test("acid is advised only to trained people aboard, last of all, and never to a cell that must not see it", () => {
  const belief = [film(1, -200, 10)];
  const failed = { ...usual, recovery: failures("disinfect", 2) };
  expect(decide(belief, failed).intensity).toBe("exchange");
  // The spare takes 90 minutes, acid 60.
  const trained = { ...failed, trainedHands: true, minutesAvailable: 60 };
  const advice = decide(belief, trained);
  expect(advice.intensity).toBe("descale");
  expect(advice.action).toMatch(/^By trained people/);
  expect(decide(belief, { ...trained, instrument: { noAcid: true } }).intensity).toBe("rinse");
  expect(decide(belief, { ...usual, trainedHands: true }).intensity).toBe("disinfect");
});

test("without trained people aboard the cell is rinsed, its data are corrected and the spare is fitted later", () => {
  const advice = decide([film(1, -200, 10)], {
    ...usual,
    recovery: failures("disinfect", 2),
    trainedHands: false,
  });
  expect(advice.intensity).toBe("rinse");
  expect(advice.action).toMatch(/Have the cell checked, and correct its data against bottles/);
});

test("after a failed soak the advice gives its cast, the film left, and the odds of the next cleaning and the spare", () => {
  const advice = decide([film(0.95, -330, 15), without(0.05, "calibration-shift")], {
    ...usual,
    recovery: failures("soak", 1),
    failed: [{ intensity: "soak", afterCast: "193" }],
  });
  expect(advice.intensity).toBe("disinfect");
  expect(advice.because).toBe(
    "Soaked after cast 193, still a film of -330 ± 15 ppm (fouled, 95 %). A disinfect brings the primary cell back within 0.002 " +
      "with 57 % probability (90 % required). The cell may also be clean: in total it is within 0.002 with 59 % probability. No cleaning that " +
      "the watch can do reaches 90 %. This one has the least expected loss. The spare reaches over 99 %.",
  );
  expect(advice.action).toMatch(/have the spare ready/);
  expect(advice.alternatives[2]!.whyNot).toBe("this or a harder cleaning failed on this film");
});

test("a shift that looks like a film and did not respond to a soak is not soaked again", () => {
  const now = {
    recovery: failures("soak", 1),
    failed: [{ intensity: "soak", afterCast: "7" }],
  } as const;
  for (const weight of [0.2, 0.45, 0.55, 0.9]) {
    const belief = [film(weight, -250, 15), shifted(1 - weight, -250)];
    const advice = decide(belief, { ...usual, ...now });
    expect(advice.intensity).toBe(weight < 0.5 ? "rinse" : "disinfect");
    expect(advice.because).toMatch(/^Soaked after cast 7/);
  }
});

test("an exactly known film is brought back with the probability that the cleaning works", () => {
  for (const weight of [0.92, 0.95, 0.97]) {
    const advice = decide([film(weight, -400), without(1 - weight, "sound")], usual);
    // 400 ppm beyond a target of 50: only where the disinfect works, 0.85, is what stays within it.
    expect(advice.intensity).toBe("disinfect");
    expect(advice.because).toContain("back within 0.002 with 85 % probability");
    expect(advice.expectedResidual.probabilityWithinTarget).toBeGreaterThan(
      0.849 + 0.14 * (1 - weight),
    );
  }
});

test("the reasons give the state, then what cleans and what does not, and name the cell in each sentence", () => {
  const advice = decide([film(0.97, -100), without(0.03, "sound")], { ...usual, recovery: exact });
  expect(advice.because).toBe(
    "Fouled (97 %), a film of -100 ± 0 ppm. A soak brings the primary cell back within 0.002 with 92 % probability " +
      "(90 % required). A wash reaches only 80 %.",
  );
  expect(advice.action).toMatch(/^Soak the primary cell/);
});

test("a film of 58 % is given as a condition, one of 70 % as a fact", () => {
  const because = (weight: number) =>
    decide([film(weight, -100), shifted(1 - weight, -100)], usual).because;
  expect(because(0.58)).toMatch(
    /^If the primary cell is fouled \(58 %\), its film is -100 ± 0 ppm\./,
  );
  expect(because(0.7)).toMatch(/^Fouled \(70 %\), a film of -100 ± 0 ppm\./);
});

test("beside a film of 40 % a sound cell is not said to need nothing, and the action names where to look", () => {
  const action = (weight: number) =>
    decide([film(weight, -100), without(1 - weight, "sound")], usual).action;
  expect(action(0.4)).toBe(
    'Rinse the primary cell as after every cast. A film is 40 % probable. See "would decide".',
  );
  expect(action(0.03)).toBe("Rinse the primary cell as after every cast.");
});

test("a cleaning that falls short is compared with the probability required", () => {
  expect(decide([film(1, -4000, 100)], usual).because).toMatch(
    /No cleaning that the watch can do reaches 90 %\. This one has the least expected loss\./,
  );
});

test("steps for two cells are in the singular for each of them", () => {
  const of = (cell: "primary" | "secondary") =>
    decide([film(1, -400, 5)], { ...usual, cell, oneOfTwo: true });
  const steps = adviceForAll([of("primary"), of("secondary")]).steps;
  expect(steps.join(" ")).toContain("Leave each cell filled");
  expect(steps.filter((step) => /^Both cells: (leave|drain) it/.test(step))).toEqual([]);
});

test("a film too heavy for one cleaning is cleaned as hard as fits, and the next cast is checked", () => {
  const advice = decide([film(1, -4000, 100)], usual);
  expect(advice.intensity).toBe("disinfect");
  expect(advice.action).toMatch(/Check on the next cast whether the cleaning worked/);
});

test("a film of -60 ± 40 ppm is rinsed, and bottles are advised to make it clear", () => {
  const advice = decide([film(1, -60, 40)], usual);
  expect(advice.intensity).toBe("rinse");
  expect(advice.because).toMatch(/includes less than half the target \(25 ppm\)/);
  // The error may be beyond the target, and a rinse still right: a film is only a part of the error.
  expect(advice.because).toMatch(/Only a film can be cleaned off: the rest .* is calibration/);
  expect(advice.action).toMatch(/casts with bottles in deep, even water/);
  expect(advice.sensitivity.join(" ")).toMatch(/beyond half the target were certain/);
  expect(decide([film(1, -110, 40)], usual).deepClean).toBe(true);
});

test("a film that may be an error of the samples is rinsed, and one that may be a shift is cleaned", () => {
  // Cleaning in vain costs an hour. The bottles of one more cast tell a sound cell from a film, but not a shift from a film.
  const sound = decide([film(0.8, -150, 10), without(0.2, "reference-error")], usual);
  expect(sound.intensity).toBe("rinse");
  expect(sound.because).toMatch(
    /With 20 % probability the primary cell has nothing to clean and reads right. A cleaning requires 10 % or less/,
  );
  expect(sound.action).toMatch(/casts with bottles in deep, even water/);
  expect(decide([film(0.8, -150, 10), shifted(0.2, -150)], usual).deepClean).toBe(true);
  expect(decide([film(0.95, -150, 10), without(0.05, "sound")], usual).deepClean).toBe(true);
});

test("the action warns if growth alone goes beyond the target", () => {
  const growing = { ...film(1, -300, 20), growthMean_ppm: -120, growthVariance: 100 };
  expect(decide([growing], usual).action).toMatch(/Clean as late before it as you can/);
});

const beliefs = fc
  .array(
    fc.record({
      weight: fc.double({ min: 0.01, max: 1, noNaN: true }),
      // Films mostly, so that most beliefs have something to clean.
      cause: fc.oneof(
        { weight: 3, arbitrary: fc.constant<CauseName>("fouling") },
        { weight: 1, arbitrary: fc.constantFrom(...causeNames) },
      ),
      film: fc.integer({ min: -3000, max: 0 }),
      sd: fc.integer({ min: 0, max: 200 }),
      // Within the target: beyond it no cleaning meets it, and none is asked which is lighter.
      growth: fc.integer({ min: -40, max: 0 }),
    }),
    { minLength: 1, maxLength: 5 },
  )
  .map((parts) => {
    const sum = parts.reduce((total, { weight }) => total + weight, 0);
    return parts.map(
      ({ weight, cause, film: mean, sd, growth }): BeliefComponent => ({
        ...uncertain,
        weight: weight / sum,
        cause,
        filmMean_ppm: cause === "fouling" ? mean : 0,
        filmVariance: cause === "fouling" ? sd * sd : 0,
        growthMean_ppm: growth,
        growthVariance: 4,
      }),
    );
  });
const settings = fc.record({
  minutes: fc.integer({ min: 0, max: 120 }),
  confidence: fc.double({ min: 0.5, max: 0.99, noNaN: true }),
  recovery: fc.constantFrom(
    defaultRecovery,
    failures("wash", 2),
    failures("soak", 1),
    failures("soak", 2),
    failures("disinfect", 2),
  ),
  oxygenSensorInLine: fc.boolean(),
  noAcid: fc.boolean(),
  trainedHands: fc.boolean(),
});
function circumstancesOf({
  minutes,
  confidence,
  recovery,
  oxygenSensorInLine,
  noAcid,
  trainedHands,
}: typeof settings extends fc.Arbitrary<infer T> ? T : never): Circumstances {
  return {
    ...usual,
    confidence,
    recovery,
    trainedHands,
    minutesAvailable: minutes,
    instrument: { oxygenSensorInLine, noAcid },
  };
}
const rank = ({ intensity }: { readonly intensity: (typeof intensityNames)[number] }) =>
  intensityNames.indexOf(intensity);

test("a dirtier film never gives a lighter cleaning, all else equal", () => {
  fc.assert(
    fc.property(beliefs, settings, fc.integer({ min: 0, max: 3000 }), (belief, given, more) => {
      const circumstances = circumstancesOf(given);
      const dirtier = belief.map((component) =>
        component.cause === "fouling"
          ? { ...component, filmMean_ppm: component.filmMean_ppm - more }
          : component,
      );
      expect(rank(decide(dirtier, circumstances))).toBeGreaterThanOrEqual(
        rank(decide(belief, circumstances)),
      );
    }),
    { seed: 6, numRuns: 300 },
  );
});

test("more time never makes the cleaning lighter", () => {
  fc.assert(
    fc.property(beliefs, settings, fc.integer({ min: 0, max: 120 }), (belief, given, more) => {
      const short = decide(belief, circumstancesOf(given));
      const long = decide(belief, circumstancesOf({ ...given, minutes: given.minutes + more }));
      expect(rank(long)).toBeGreaterThanOrEqual(rank(short));
    }),
    { seed: 7, numRuns: 300 },
  );
});

test("an advice fits time and instrument, has cautions, lists every intensity and survives JSON", () => {
  fc.assert(
    fc.property(beliefs, settings, (belief, given) => {
      const advice = decide(belief, circumstancesOf(given));
      expect(adviceSchema.parse(JSON.parse(JSON.stringify(advice)))).toEqual(advice);
      expect(advice.minutes <= given.minutes || advice.intensity === "rinse").toBe(true);
      if (given.noAcid) expect(advice.intensity).not.toBe("descale");
      expect(advice.cautions.join(" ")).toMatch(/safety data sheet/);
      expect(advice.steps.length).toBeGreaterThan(0);
      expect(advice.alternatives.map(rank)).toEqual([0, 1, 2, 3, 4, 5]);
      for (const { intensity, whyNot } of advice.alternatives) {
        expect(whyNot === undefined).toBe(intensity === advice.intensity);
      }
      expect(`${advice.because} ${advice.action} ${advice.sensitivity.join(" ")}`).not.toMatch(
        /NaN|undefined|Infinity/,
      );
      const removable = belief
        .filter(({ cause }) => !notRemovable.includes(cause))
        .reduce((sum, { weight }) => sum + weight, 0);
      if (removable < 0.5) expect(advice.deepClean).toBe(false);
      else if (rank(advice) < rank({ intensity: "descale" })) {
        // Met with the confidence asked for, or nothing lighter or as quick would have met it either.
        const met = advice.alternatives.filter(
          (rung) =>
            rung.fits &&
            rank(rung) < rank(advice) &&
            rung.probabilityWithinTarget >= given.confidence,
        );
        expect(met).toEqual([]);
      }
    }),
    { seed: 8, numRuns: 300 },
  );
});

test("an advice deeper than a rinse has a film that is probable, and whose 95 % interval excludes half the target", () => {
  const mended = new Set(causes.filter((one) => one.removedByCleaning).map(({ name }) => name));
  const anyFilm = beliefs.chain((belief) =>
    fc.record({
      belief: fc.constant(belief),
      // Near the limit, where it matters.
      mean: fc.integer({ min: -150, max: 0 }),
      sd: fc.integer({ min: 1, max: 60 }),
    }),
  );
  let deeper = 0;
  fc.assert(
    fc.property(anyFilm, settings, ({ belief, mean, sd }, given) => {
      const near = belief.map((one, i) =>
        i === 0 && one.cause === "fouling"
          ? { ...one, filmMean_ppm: mean, filmVariance: sd * sd }
          : one,
      );
      if (decide(near, circumstancesOf(given)).intensity === "rinse") return;
      deeper++;
      const held = near.filter(({ cause }) => mended.has(cause));
      const weight = held.reduce((sum, one) => sum + one.weight, 0);
      expect(weight).toBeGreaterThanOrEqual(0.5);
      const beyond = held.reduce((sum, { weight, filmMean_ppm, filmVariance }) => {
        const sd = Math.sqrt(filmVariance);
        const share = sd > 0 ? normalCdf((-25 - filmMean_ppm) / sd) : filmMean_ppm <= -25 ? 1 : 0;
        return sum + weight * share;
      }, 0);
      expect(beyond / weight).toBeGreaterThanOrEqual(0.975 - 1e-9);
      // Whatever has no film and reads above minus half the target has 10 % at most, by the confidence of the settings.
      const readsRight = near
        .filter(({ cause }) => !mended.has(cause))
        .reduce((sum, { weight, cleanMean_ppm, filmMean_ppm, cleanVariance, filmVariance }) => {
          const away =
            (cleanMean_ppm + filmMean_ppm + 25) / Math.sqrt(cleanVariance + filmVariance);
          return sum + weight * normalCdf(away);
        }, 0);
      const { confidence = 0.9 } = circumstancesOf(given);
      expect(readsRight).toBeLessThanOrEqual(1 - confidence + 1e-9);
    }),
    { seed: 11, numRuns: 1000 },
  );
  // The property is not empty.
  expect(deeper).toBeGreaterThan(50);
});

test("of two cells the fouled one is cleaned and the other is rinsed", () => {
  const one = (cell: "primary" | "secondary", belief: readonly BeliefComponent[]) =>
    decide(belief, { ...usual, cell, oneOfTwo: true });
  const light = one("secondary", [without(1, "sound")]);
  const hard = one("primary", [film(1, -200, 10)]);
  for (const both of [adviceForAll([light, hard]), adviceForAll([hard, light])]) {
    expect(both).toMatchObject({
      cells: ["primary"],
      decidedBy: "primary",
      intensity: "disinfect",
    });
    expect(both.steps.at(-1)).toBe("Rinse the secondary cell as after every cast.");
    expect(both.steps.slice(0, -1)).toEqual(hard.steps);
    for (const step of both.steps.slice(0, -1)) expect(step).toMatch(/primary cell/i);
    expect(both.action).toMatch(/^Disinfect the primary cell/);
    expect(both.action).toMatch(/secondary cell/i);
    expect(both.because).toBe(`${hard.because} ${light.because}`);
  }
});

test("if both cells need the same cleaning, both are named, and the harder one to bring back decides", () => {
  const one = (cell: "primary" | "secondary", film_ppm: number) =>
    decide([film(1, film_ppm, 10)], { ...usual, cell, oneOfTwo: true });
  const [a, b] = [one("primary", -200), one("secondary", -2500)];
  const both = adviceForAll([a, b]);
  expect(both).toMatchObject({
    cells: ["primary", "secondary"],
    decidedBy: "secondary",
    intensity: "disinfect",
    minutes: a.minutes,
  });
  expect(both.action).toMatch(/^Disinfect each cell/);
  expect(both.steps.join(" ")).not.toMatch(/primary|secondary/i);
  expect(both.steps.every((step) => /each cell|both cells/i.test(step))).toBe(true);
  expect(adviceForAll([a])).toEqual(a);
});

test("weights that do not sum to one and impossible limits throw a RangeError", () => {
  expect(() => decide([film(0.5, -10)], usual)).toThrow(RangeError);
  expect(() => decide([], usual)).toThrow(RangeError);
  expect(() => decide([film(1, -10)], { ...usual, confidence: 1 })).toThrow(RangeError);
  expect(() => decide([film(1, -10)], { ...usual, target_ppm: 0 })).toThrow(RangeError);
  expect(() => decide([film(1, -10)], { ...usual, minutesAvailable: Number.NaN })).toThrow(
    RangeError,
  );
});
