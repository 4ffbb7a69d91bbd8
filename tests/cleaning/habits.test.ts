import { expect, test } from "vitest";
import {
  type Belief,
  type BeliefComponent,
  type Circumstances,
  decide,
} from "../../src/cleaning/decision/decide.js";
import { defaultCosts, expectedLoss } from "../../src/cleaning/decision/loss.js";
import { defaultLadder } from "../../src/cleaning/ladder/intensities.js";
import type { Intensity } from "../../src/cleaning/ladder/intensity.js";
import { defaultRecovery } from "../../src/model/recovery.js";
import { normalPdf } from "../../src/statistics/normal.js";
import { seeded } from "../evidence/seeded.js";
import { still, usualCircumstances } from "./usualDecision.js";

// Simulated decisions with known truth. Of 2000 cells three in ten carry a film, N(-200, 80) ppm; each is seen
// once with an error of 30 ppm, and the belief is the exact posterior. Each is then cleaned by rule, by habit, or by
// one who knows the film (but not whether the cleaning will work), and pays what it comes to.
const cells = 2000;
const fouled = 0.3;
const film = { mean: -200, sd: 80 };
const error = 30;
const target_ppm = 50;
const circumstances: Circumstances = { ...usualCircumstances(target_ppm), minutesAvailable: 90 };

function posterior(seen: number): Belief {
  const spread = Math.hypot(film.sd, error);
  const withFilm = (fouled * normalPdf((seen - film.mean) / spread)) / spread;
  const sound = ((1 - fouled) * normalPdf(seen / error)) / error;
  const variance = 1 / (1 / film.sd ** 2 + 1 / error ** 2);
  const both: readonly BeliefComponent[] = [
    {
      ...still,
      weight: withFilm / (withFilm + sound),
      cause: "fouling",
      filmMean_ppm: variance * (film.mean / film.sd ** 2 + seen / error ** 2),
      filmVariance: variance,
    },
    {
      ...still,
      weight: sound / (withFilm + sound),
      cause: "sound",
      filmMean_ppm: 0,
      filmVariance: 0,
    },
  ];
  return both;
}

/** What a choice came to, once luck has fallen. */
function price(rung: Intensity, within: boolean, stays: boolean, dirty: boolean): number {
  return expectedLoss(
    { intensity: rung.name, minutes: rung.minutes.value, deep: rung.deep },
    { withinTarget: within ? 1 : 0, stays: stays ? 1 : 0, removable: dirty ? 1 : 0 },
    defaultCosts,
  );
}

/** What one chooses who knows the film. */
function cheapestFor(film_ppm: number): string {
  const known: BeliefComponent = {
    ...still,
    weight: 1,
    cause: film_ppm === 0 ? "sound" : "fouling",
    filmMean_ppm: film_ppm,
    filmVariance: 0,
  };
  return decide([known], circumstances)
    .alternatives.filter(({ intensity }) => rungOf(intensity).hands === "watch")
    .reduce((best, rung) => (rung.expectedLoss < best.expectedLoss ? rung : best)).intensity;
}

const rungOf = (name: string) => defaultLadder.find((rung) => rung.name === name)!;

test("the rule costs less than always rinsing or always soaking, and under a third more than knowing the film", () => {
  const { uniform, normal } = seeded(9);
  const forSound = cheapestFor(0);
  const total = { rule: 0, rinse: 0, soak: 0, oracle: 0 };
  for (let i = 0; i < cells; i++) {
    const dirty = uniform() < fouled;
    const truth = dirty ? Math.min(0, film.mean + film.sd * normal()) : 0;
    const seen = truth + error * normal();
    const luck = { works: uniform(), share: normal() };
    const within = ({ name }: Intensity) => {
      const { probabilityWorks, retainedIfWorks, retainedIfFails } = defaultRecovery[name];
      const { mean, sd } = luck.works < probabilityWorks ? retainedIfWorks : retainedIfFails;
      return truth * (mean + sd * luck.share) > -target_ppm;
    };
    const stays = ({ name }: Intensity) =>
      truth < -target_ppm && luck.works >= defaultRecovery[name].probabilityWorks;
    const pay = (rung: Intensity) => price(rung, within(rung), stays(rung), dirty);
    const chosen = decide(posterior(seen), circumstances).intensity;
    const known = dirty ? cheapestFor(truth) : forSound;
    total.rule += pay(rungOf(chosen));
    total.rinse += pay(rungOf("rinse"));
    total.soak += pay(rungOf("soak"));
    total.oracle += pay(rungOf(known));
  }
  expect(total.rule).toBeLessThan(total.rinse);
  expect(total.rule).toBeLessThan(total.soak);
  expect(total.rule).toBeLessThan(1.3 * total.oracle);
});
