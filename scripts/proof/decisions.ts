// What the advice costs on simulated cruises whose truth is known, beside fixed habits and one who knows the film;
// and how well the record of past cleanings was read.
import type { CellName } from "../../src/cast/cast.js";
import { type IntensityName, intensityNames } from "../../src/cast/maintenance.js";
import { filmLeft } from "../../src/cleaning/decision/filmLeft.js";
import { defaultCosts, expectedLoss } from "../../src/cleaning/decision/loss.js";
import { defaultLadder, rungOf } from "../../src/cleaning/ladder/intensities.js";
import { minutesFor } from "../../src/cleaning/ladder/intensity.js";
import { defaultRecovery } from "../../src/model/recovery.js";
import { gainForSalinity } from "../../src/model/salinityError.js";
import {
  type RandomStream,
  randomScenario,
  randomStream,
  type Scenario,
  simulateCruise,
} from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { CleaningSeen } from "../../src/verdict/verdict.js";
import { still } from "../../tests/cleaning/usualDecision.js";
import { firstFreshSeed } from "./freshSeeds.js";

const policies = ["advice", "soak first", "always rinse", "always soak", "film known"] as const;
type Policy = (typeof policies)[number];
const remarks: Readonly<Partial<Record<Policy, string>>> = {
  "soak first": ", where a disinfect is advised",
  "film known": ", its cleaning's luck not",
};

/** What the odds that a cleaning works are in truth, as a multiple of what the advice believes: cells differ in luck. */
const odds = [0.5, 1, 2] as const;
type Odds = (typeof odds)[number];

/** One cell after one cast: what each policy would have done, and what that came to. */
interface Decision {
  /** The film is beyond the target as it is. */
  readonly dirty: boolean;
  readonly advised: IntensityName;
  readonly costs: Readonly<Record<Odds, Readonly<Record<Policy, number>>>>;
}

/** A share that was told of a past cleaning, off from the truth by so many standard uncertainties. */
type Off = number;

/** Less than this is no film to speak of. */
const leastFilm_ppm = 10;

function decisionsOf(seed: number): {
  readonly decisions: readonly Decision[];
  readonly off: readonly Off[];
} {
  const scenario = randomScenario(seed);
  const { cruise, truth } = simulateCruise(scenario);
  const target_ppm = Math.abs(gainForSalinity(-cruise.target));
  const document = assessCruise(cruise);
  const luck = randomStream(seed).split("cleanings to come");
  const decisions = document.casts.flatMap((verdict, i) =>
    Object.entries(verdict.cells).map(([name, { advice }]): Decision => {
      const cell = name as CellName;
      const left = i === document.casts.length - 1 ? retained(scenario, cell, i + 1) : 1;
      const film = truth[i]!.cells[cell]!.film.up * left;
      const growth = growthAfter(scenario, cell, i + 1);
      const own = luck.split(verdict.cast).split(cell);
      const chosen: Record<Policy, IntensityName> = {
        advice: advice.intensity,
        "soak first": advice.intensity === "disinfect" ? "soak" : advice.intensity,
        "always rinse": "rinse",
        "always soak": "soak",
        "film known": cheapest(film, growth, target_ppm),
      };
      const pay = (intensity: IntensityName, times: Odds) => {
        const luck = own.split("share");
        const worked = works(luck, intensity, times);
        const then = film * shareLeft(luck, intensity, worked) + growth;
        const stays = film + growth < -target_ppm && !worked;
        return priceOf(intensity, then > -target_ppm ? 1 : 0, stays ? 1 : 0, film);
      };
      const costs = (times: Odds) => ({
        advice: pay(chosen.advice, times),
        "soak first": pay(chosen["soak first"], times),
        "always rinse": pay(chosen["always rinse"], times),
        "always soak": pay(chosen["always soak"], times),
        "film known": pay(chosen["film known"], times),
      });
      return {
        dirty: film + growth < -target_ppm,
        advised: advice.intensity,
        costs: { 0.5: costs(0.5), 1: costs(1), 2: costs(2) },
      };
    }),
  );
  const off = document.casts.flatMap(({ cleaned = [] }) =>
    cleaned.map((told) => offBy(told, scenario)),
  );
  return { decisions, off };
}

/** The same luck for every policy. */
function shareLeft(luck: RandomStream, intensity: IntensityName, worked: boolean): number {
  const { retainedIfWorks, retainedIfFails } = defaultRecovery[intensity];
  const { mean, sd } = worked ? retainedIfWorks : retainedIfFails;
  return Math.min(1, Math.max(0, mean + sd * luck.split("how much").normal()));
}

function works(luck: RandomStream, intensity: IntensityName, times: Odds): boolean {
  const p = defaultRecovery[intensity].probabilityWorks;
  return luck.split("works").uniform() < (times * p) / (1 - p + times * p);
}

function priceOf(
  intensity: IntensityName,
  withinTarget: number,
  stays: number,
  film: number,
): number {
  const rung = rungOf(defaultLadder, intensity);
  const removable = film < -leastFilm_ppm ? 1 : 0;
  const work = { intensity, minutes: minutesFor(rung, {}), deep: rung.deep };
  return expectedLoss(work, { withinTarget, stays, removable }, defaultCosts);
}

/** The watch's rung with the least expected cost for one who knows the film and its growth, not the luck. */
function cheapest(film: number, growth: number, target_ppm: number): IntensityName {
  const known = {
    ...still,
    weight: 1,
    cause: "fouling",
    filmMean_ppm: film,
    filmVariance: 0,
    growthMean_ppm: growth,
  } as const;
  const expected = (name: IntensityName) =>
    priceOf(
      name,
      filmLeft([known], defaultRecovery[name], target_ppm).probabilityWithinTarget,
      film + growth < -target_ppm ? 1 - defaultRecovery[name].probabilityWorks : 0,
      film,
    );
  return intensityNames
    .filter((name) => rungOf(defaultLadder, name).hands === "watch")
    .reduce((best, name) => (expected(name) < expected(best) ? name : best));
}

/** What the crew's own cleanings after a cast left; only the advice of the last cast knows of them. */
function retained({ events = [] }: Scenario, cell: CellName, cast: number): number {
  return events.reduce(
    (share, event) =>
      event.kind === "cleaning" &&
      event.afterCast === cast &&
      (event.cells === undefined || event.cells.includes(cell))
        ? share * event.retained
        : share,
    1,
  );
}

function growthAfter(scenario: Scenario, cell: CellName, cast: number): number {
  const days = scenario.hoursBetweenCasts! / 24;
  return (scenario.events ?? []).reduce((sum, event) => {
    if (event.kind !== "film-growth" || event.cell !== cell) return sum;
    const { fromCast, untilCast = Number.POSITIVE_INFINITY } = event;
    return cast + 1 >= fromCast && cast + 1 <= untilCast ? sum + event.ppmPerDay * days : sum;
  }, 0);
}

function offBy(told: CleaningSeen, scenario: Scenario): Off {
  const truth = retained(scenario, told.cell, Number(told.afterCast));
  return (told.retained - truth) / told.standardUncertainty;
}

/** The figures of many cruises, as text. */
export function decisionsReport(cruises: number, onCruise: (done: number) => void): string {
  const decisions: Decision[] = [];
  const off: Off[] = [];
  for (let i = 0; i < cruises; i++) {
    const found = decisionsOf(firstFreshSeed + i);
    decisions.push(...found.decisions);
    off.push(...found.off);
    onCruise(i + 1);
  }
  const dirty = decisions.filter((one) => one.dirty);
  const clean = decisions.filter((one) => !one.dirty);
  const mean = (some: readonly Decision[], policy: Policy, times: Odds = 1) =>
    some.reduce((sum, { costs }) => sum + costs[times][policy], 0) / some.length;
  const figure = (value: number) => value.toFixed(1).padStart(14);
  const advised = intensityNames
    .map((name) => `${name} ${decisions.filter((one) => one.advised === name).length}`)
    .join(", ");
  return [
    `${cruises} cruises (seeds ${firstFreshSeed} to ${firstFreshSeed + cruises - 1}), ${decisions.length} decisions, ${dirty.length} of them with a film beyond the target`,
    "",
    "mean cost of a decision, minutes of ship's time          all          dirty         within",
    ...policies.map(
      (policy) =>
        `  ${`${policy}${remarks[policy] ?? ""}`.padEnd(44)}` +
        [decisions, dirty, clean].map((some) => figure(mean(some, policy))).join(""),
    ),
    "",
    "the same, all, if the odds that a cleaning works are      half         as believed      double",
    ...policies.map(
      (policy) =>
        `  ${policy.padEnd(44)}` +
        odds.map((times) => figure(mean(decisions, policy, times))).join(""),
    ),
    `advised: ${advised}`,
    "",
    `shares told of past cleanings: ${off.length}; off by ${Math.sqrt(
      off.reduce((sum, one) => sum + one ** 2, 0) / off.length,
    ).toFixed(
      2,
    )} standard uncertainties rms, ${off.filter((one) => Math.abs(one) > 3).length} by more than 3`,
  ].join("\n");
}
