// How much the advice hangs on the recovery priors, which are judgement: the decision over a grid of films, with the odds
// that each cleaning works halved and doubled.
import { cross, max, mean } from "d3-array";
import { type IntensityName, intensityNames } from "../../src/cast/maintenance.js";
import type { Advice } from "../../src/cleaning/decision/advice.js";
import { type Belief, decide } from "../../src/cleaning/decision/decide.js";
import { defaultLadder } from "../../src/cleaning/ladder/intensities.js";
import { defaultRecovery, type Recovery } from "../../src/model/recovery.js";
import { gainForSalinity } from "../../src/model/salinityError.js";
import { still } from "../../tests/cleaning/usualDecision.js";

/** Films of 50 ppm, which is about the target of 0.002, to what no single cleaning takes off. */
const films_ppm = [50, 70, 100, 150, 200, 300, 500, 1000, 2000];
/** Standard deviation of the film as a share of it. */
const relativeDeviations = [0.1, 0.3, 0.5];
/** Weight of the film; a sound cell has the rest. */
const weights = [0.5, 0.7, 0.9, 1];
/** Enough for all; for a soak and what is lighter; for a wash. */
const minutesAvailable = [120, 45, 20];
const target = 0.002;

interface Case {
  readonly belief: Belief;
  readonly minutes: number;
}

const cases: readonly Case[] = cross(films_ppm, relativeDeviations).flatMap(([film, deviation]) =>
  cross(weights, minutesAvailable).map(([weight, minutes]) => ({
    belief: beliefOf(-film, deviation * film, weight),
    minutes,
  })),
);

function beliefOf(film_ppm: number, sd_ppm: number, weight: number): Belief {
  const film = { ...still, weight, filmMean_ppm: film_ppm, filmVariance: sd_ppm ** 2 };
  const sound = { ...still, weight: 1 - weight, filmMean_ppm: 0, filmVariance: 0 };
  return [
    { ...film, cause: "fouling" },
    { ...sound, cause: "sound" },
  ];
}

const cleanings = intensityNames.filter((name) => name !== "exchange");
const variants = [
  ...cross([cleanings], [0.5, 2]).map(([names, times]) => ({ what: "all", names, times })),
  ...cross(cleanings, [0.5, 2]).map(([name, times]) => ({ what: name, names: [name], times })),
];

/** The priors with the odds of some cleanings multiplied. */
function withOdds(names: readonly IntensityName[], times: number): Recovery {
  const changed = names.map((name) => {
    const prior = defaultRecovery[name];
    const odds = (times * prior.probabilityWorks) / (1 - prior.probabilityWorks);
    return [name, { ...prior, probabilityWorks: odds / (1 + odds) }] as const;
  });
  return { ...defaultRecovery, ...Object.fromEntries(changed) };
}

function advise({ belief, minutes }: Case, recovery: Recovery): Advice {
  return decide(belief, {
    cell: "primary",
    target,
    target_ppm: Math.abs(gainForSalinity(-target)),
    instrument: {},
    ladder: defaultLadder,
    recovery,
    minutesAvailable: minutes,
  });
}

/** Sensitivity of the advice to the recovery priors, as text. */
export function recoveryPriorsReport(): string {
  const usual = cases.map((one) => advise(one, defaultRecovery));
  const counts = (advice: readonly Advice[]) =>
    intensityNames
      .map((name) => advice.filter(({ intensity }) => intensity === name).length)
      .map((count) => String(count).padStart(10))
      .join("");
  const lines = variants.map(({ what, names, times }) => {
    const other = cases.map((one) => advise(one, withOdds(names, times)));
    const changed = other.filter(({ intensity }, i) => intensity !== usual[i]!.intensity).length;
    const regrets = other.map((advice, i) => costOf(advice, usual[i]!) - costOf(advice, advice));
    return [
      `${what}, odds ${times === 2 ? "doubled" : "halved"}`.padEnd(28),
      `${((100 * changed) / cases.length).toFixed(0)} %`.padStart(8),
      mean(regrets)!.toFixed(1).padStart(10),
      max(regrets)!.toFixed(0).padStart(8),
      counts(other),
    ].join("");
  });
  return [
    `${cases.length} beliefs: films of ${films_ppm[0]} to ${films_ppm.at(-1)} ppm, known to 10, 30 or 50 %, 50 to 100 % probable; 120, 45 or 20 minutes`,
    "changed: share of the beliefs that get another advice. cost: what the usual advice costs more than that other one,",
    "minutes of ship's time, if the changed odds are the true ones; negative where the rule's 90 % outbids the cost",
    "",
    `${"priors".padEnd(28)} changed cost, mean    most${intensityNames.map((name) => name.padStart(10)).join("")}`,
    `${"as they are".padEnd(54)}${counts(usual)}`,
    ...lines,
  ].join("\n");
}

/** Expected cost of what one advice names, by the odds of another. */
function costOf(odds: Advice, { intensity }: Advice): number {
  return odds.alternatives.find((rung) => rung.intensity === intensity)!.expectedLoss;
}
