import fc from "fast-check";
import { expect, test } from "vitest";
import { intensityNames } from "../../src/cast/maintenance.js";
import {
  type CleaningOutcome,
  defaultRecovery,
  failedOnFilm,
  updateRecovery,
} from "../../src/model/recovery.js";

const outcome = (
  intensity: CleaningOutcome["intensity"],
  mean: number,
  sd = 0.05,
  cell: CleaningOutcome["cell"] = "primary",
  sameFilm = 0,
): CleaningOutcome => ({
  intensity,
  cell,
  retained: { mean, sd },
  filmProbability: 1,
  sameFilm,
});

const worked = (outcomes: readonly CleaningOutcome[]) =>
  updateRecovery(defaultRecovery, outcomes, "primary");

test("no published cleaning is known to have brought a cell back: no prior of a soak is nearer to certain than to even odds [CruiseReports2022]", () => {
  const { probabilityWorks } = defaultRecovery.soak;
  expect(probabilityWorks).toBeGreaterThan(0.5);
  expect(probabilityWorks).toBeLessThanOrEqual(0.75);
});

test("without a record the priors stay", () => {
  expect(worked([])).toEqual(defaultRecovery);
});

test("one clear failure of a soak, with a prior worth four, leaves 4 x 0.7 / 5", () => {
  expect(worked([outcome("soak", 0.95)]).soak.probabilityWorks).toBeCloseTo(0.56, 4);
});

test("one clear success that left 0.10 moves the share left to (4 x 0.04 + 0.10) / 5", () => {
  const { soak } = worked([outcome("soak", 0.1, 0)]);
  expect(soak.retainedIfWorks.mean).toBeCloseTo(0.052, 4);
  expect(soak.probabilityWorks).toBeCloseTo((4 * 0.7 + 1) / 5, 4);
});

test("a share left that was measured no better than the prior knows it counts half as much", () => {
  const soaks = (sd: number) => worked([outcome("soak", 0.1, sd)]).soak;
  // The weight of one of two independent values is its precision over the sum of both.
  const { sd } = defaultRecovery.soak.retainedIfWorks;
  const moved = (seen: number) => seen - defaultRecovery.soak.retainedIfWorks.mean;
  const half = (4 * 0.04 + 0.5 * 0.1) / 4.5;
  expect(moved(soaks(sd).retainedIfWorks.mean)).toBeCloseTo(half - 0.04, 3);
  expect(moved(soaks(sd).retainedIfWorks.mean)).toBeLessThan(moved(soaks(0).retainedIfWorks.mean));
});

test("failures count for lighter cleanings, successes for harder ones, and acid only for itself", () => {
  const failed = worked([outcome("disinfect", 0.9), outcome("disinfect", 0.9)]);
  const succeeded = worked([outcome("wash", 0.05)]);
  for (const name of ["rinse", "wash", "soak"] as const) {
    expect(failed[name].probabilityWorks).toBeLessThan(defaultRecovery[name].probabilityWorks);
  }
  for (const name of ["soak", "disinfect"] as const) {
    expect(succeeded[name].probabilityWorks).toBeGreaterThan(
      defaultRecovery[name].probabilityWorks,
    );
  }
  expect(succeeded.rinse.probabilityWorks).toBeCloseTo(0.15, 12);
  expect(failed.descale).toEqual(defaultRecovery.descale);
  expect(succeeded.descale).toEqual(defaultRecovery.descale);
});

test("the record of another cell, or from before an exchange, does not count", () => {
  expect(worked([outcome("soak", 0.95, 0.05, "secondary")])).toEqual(defaultRecovery);
  expect(worked([outcome("soak", 0.95), outcome("exchange", 0, 0)])).toEqual(defaultRecovery);
});

test("an outcome that cannot be seen does not change the prior", () => {
  const vague = worked([outcome("soak", 0.5, 100)]);
  expect(vague.soak.probabilityWorks).toBeCloseTo(0.7, 3);
  expect(vague.soak.retainedIfWorks.mean).toBeCloseTo(0.04, 5);
});

const outcomes = fc.array(
  fc
    .tuple(
      fc.constantFrom(...intensityNames.slice(0, 5)),
      fc.double({ min: -0.3, max: 1.3, noNaN: true }),
      fc.double({ min: 0, max: 0.5, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
    )
    .map(([intensity, mean, sd, sameFilm]) => outcome(intensity, mean, sd, "primary", sameFilm)),
  { maxLength: 12 },
);

test("the order of the record does not matter, and a harder cleaning is never less likely to work", () => {
  fc.assert(
    fc.property(outcomes, (all) => {
      const once = worked(all);
      const reversed = worked(all.toReversed());
      let lighter = 0;
      for (const name of ["rinse", "wash", "soak", "disinfect"] as const) {
        const { probabilityWorks, retainedIfWorks } = once[name];
        expect(reversed[name].probabilityWorks).toBeCloseTo(probabilityWorks, 12);
        expect(reversed[name].retainedIfWorks.mean).toBeCloseTo(retainedIfWorks.mean, 12);
        expect(probabilityWorks).toBeGreaterThanOrEqual(lighter - 1e-12);
        expect(probabilityWorks).toBeLessThan(1);
        lighter = probabilityWorks;
      }
    }),
    { seed: 4 },
  );
});

test("after a soak that failed a disinfect works with 0.57: 0.8 x (0.85 - 0.7) / 0.3 + 0.2 x 0.85", () => {
  const { soak, disinfect, descale, wash } = worked([outcome("soak", 0.97, 0.01, "primary", 1)]);
  expect(disinfect.probabilityWorks).toBeCloseTo(0.57, 3);
  expect(disinfect.failed).toBeUndefined();
  // The cell's habit, 0.56, and a fifth of it for what failed on this very film.
  expect(soak.probabilityWorks).toBeCloseTo(0.2 * 0.56, 3);
  expect(soak.failed).toBe("on this film");
  expect(wash.failed).toBe("on this film");
  expect(descale).toEqual(defaultRecovery.descale);
});

test("one failure on an earlier film rules no cleaning out, two do", () => {
  const once = worked([outcome("soak", 0.97, 0.01)]);
  expect(once.soak.failed).toBeUndefined();
  expect(once.disinfect).toEqual(defaultRecovery.disinfect);
  expect(worked([outcome("soak", 0.97, 0.01), outcome("soak", 0.97, 0.01)]).soak.failed).toBe(
    "on this cell",
  );
  const redeemed = [0.97, 0.97, 0.03].map((share) => outcome("soak", share, 0.01));
  expect(worked(redeemed).soak.failed).toBeUndefined();
});

test("a rinse without effect does not lower the odds of a wash: every film found has stayed through a rinse", () => {
  const rinsed = worked([outcome("rinse", 1, 0, "primary", 1)]);
  expect(rinsed.wash.probabilityWorks).toBeCloseTo(defaultRecovery.wash.probabilityWorks, 6);
  expect(rinsed.rinse.probabilityWorks).toBeLessThan(0.05);
});

test("failed cleanings of this film are named in order of time, without rinses and successes", () => {
  const failed = failedOnFilm(
    defaultRecovery,
    [
      outcome("soak", 0.95, 0.05, "primary", 1),
      outcome("exchange", 0, 0),
      outcome("rinse", 1, 0, "primary", 1),
      outcome("wash", 0.9, 0.05, "primary", 1),
      outcome("soak", 0.95, 0.05, "primary", 0.1),
      outcome("soak", 0.05, 0.05, "primary", 1),
      outcome("disinfect", 0.9, 0.05, "secondary", 1),
    ],
    "primary",
  );
  expect(failed.map(({ intensity }) => intensity)).toEqual(["wash"]);
});

test("a cleaning of a film with probability 0.5 counts half", () => {
  const half = { ...outcome("soak", 0.97, 0.01), filmProbability: 0.5 };
  // 4 x 0.7 / (4 + 0.5).
  expect(worked([half]).soak.probabilityWorks).toBeCloseTo(2.8 / 4.5, 3);
});

test("a long record converges to how often a soak works on this cell", () => {
  // 300 soaks of which 3 in 10 worked, each known to 0.1.
  const all = Array.from({ length: 300 }, (_, i) => outcome("soak", i % 10 < 3 ? 0.1 : 0.85, 0.1));
  const { soak } = worked(all);
  expect(soak.probabilityWorks).toBeGreaterThan(0.27);
  expect(soak.probabilityWorks).toBeLessThan(0.33);
  // Of the branch that works the share left moves from 0.04 to the 0.1 seen.
  expect(soak.retainedIfWorks.mean).toBeGreaterThan(0.08);
});
