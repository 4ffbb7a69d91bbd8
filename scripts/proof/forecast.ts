// The forecast scored on casts held back: after each cast of a simulated cruise, the gain as the next up leg ends, against
// what then came. The whole distribution by the continuous ranked probability score [GneitingRaftery2007], "beyond the
// target" by the Brier score [Brier1950]; both are less the better, and proper: no forecaster gains by saying other
// than what it holds. Yardsticks are as generous as can be:
// - what this cast was found to be, unchanged, with its own uncertainty (persistence);
// - the same with what the record says was done since, by the library's own knowledge of cleanings: what it lacks of
//   the forecast is growth, wander, and the chance that something new is caught;
// - the common way's number of this cast, with the errors that the very same forecast makes on all other cruises;
// - all gains of all other cruises (climatology).
import { group } from "d3-array";
import { randomStream } from "../../src/simulate/index.js";
import { continuousRankedProbabilityScore } from "../../src/statistics/continuousRankedProbabilityScore.js";
import { mixtureBeyond, mixtureCdf } from "../../src/statistics/mixture.js";
import { median } from "../../src/statistics/robustCentre.js";
import { courses, type ForecastCase, forecastCases } from "./forecastCases.js";
import { sampleOf, scoreOfSample, shareOutside } from "./forecastSample.js";
import { firstFreshSeed } from "./freshSeeds.js";

const forecasters = [
  "forecast",
  "this cast's estimate, unchanged",
  "this cast's estimate, cleanings reckoned with",
  "mean after 2.8-sigma rejection, unchanged",
  "all gains of the other cruises",
] as const;
type Forecaster = (typeof forecasters)[number];

/** How one case came out for each forecaster. */
interface Scored extends ForecastCase {
  /** ppm. */
  readonly ranked: Readonly<Record<Forecaster, number>>;
  /** Probability given to being beyond the target. */
  readonly beyond: Readonly<Record<Forecaster, number>>;
  readonly wasBeyond: boolean;
}

const resamples = 1000;

function scored(cases: readonly ForecastCase[]): readonly Scored[] {
  const cruises = group(cases, ({ seed }) => seed);
  return [...cruises].flatMap(([seed, own]) => {
    const others = cases.filter((one) => one.seed !== seed);
    const gains = sampleOf(others.map(({ came_ppm }) => came_ppm));
    const errors = sampleOf(others.map(({ came_ppm, common_ppm }) => came_ppm - common_ppm));
    return own.map((one): Scored => {
      const { came_ppm: came, common_ppm: common, target_ppm: target } = one;
      const mixtures = [one.forecast, one.estimate, one.estimateNow];
      return {
        ...one,
        ranked: named([
          ...mixtures.map((mixture) => continuousRankedProbabilityScore(mixture, came)),
          scoreOfSample(errors, came - common),
          scoreOfSample(gains, came),
        ]),
        beyond: named([
          ...mixtures.map((mixture) => mixtureBeyond(mixture, target)),
          shareOutside(errors, -target - common, target - common),
          shareOutside(gains, -target, target),
        ]),
        wasBeyond: Math.abs(came) > target,
      };
    });
  });
}

function named(values: readonly number[]): Readonly<Record<Forecaster, number>> {
  return Object.fromEntries(forecasters.map((name, i) => [name, values[i]!])) as Readonly<
    Record<Forecaster, number>
  >;
}

const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length;
const brier = ({ beyond, wasBeyond }: Scored, who: Forecaster) =>
  (beyond[who] - (wasBeyond ? 1 : 0)) ** 2;

/** 1 - score / score of the yardstick, and its standard error by drawing cruises anew, whole. */
function skill(
  cases: readonly Scored[],
  who: Forecaster,
  scoreOf: (one: Scored, who: Forecaster) => number,
): string {
  const sums = [...group(cases, ({ seed }) => seed).values()].map((own) => [
    own.reduce((sum, one) => sum + scoreOf(one, "forecast"), 0),
    own.reduce((sum, one) => sum + scoreOf(one, who), 0),
  ]);
  const skillOf = (some: readonly (readonly number[])[]) =>
    1 -
    some.reduce((sum, [ours]) => sum + ours!, 0) /
      some.reduce((sum, [, theirs]) => sum + theirs!, 0);
  const draw = randomStream(1).split("resamples");
  const drawn = Array.from({ length: resamples }, () =>
    skillOf(sums.map(() => sums[Math.floor(sums.length * draw.uniform())]!)),
  );
  const centre = mean(drawn);
  const error = Math.sqrt(mean(drawn.map((value) => (value - centre) ** 2)));
  return `${skillOf(sums).toFixed(3).padStart(7)} ± ${error.toFixed(3)}`;
}

/** The figures of many cruises, as text. */
export function forecastReport(cruises: number, onCruise: (done: number) => void): string {
  const cases: ForecastCase[] = [];
  for (let i = 0; i < cruises; i++) {
    cases.push(...forecastCases(firstFreshSeed + i));
    onCruise(i + 1);
  }
  // Held against each other on the same casts: those that the common way has a number for.
  const all = scored(cases.filter(({ common_ppm }) => Number.isFinite(common_ppm)));
  const beyond = all.filter(({ wasBeyond }) => wasBeyond);
  return [
    `${cruises} cruises (seeds ${firstFreshSeed} to ${firstFreshSeed + cruises - 1}), ${all.length} forecasts of a cell one cast ahead, ` +
      `${beyond.length} of them beyond the target`,
    "",
    "                                                ranked score, ppm, and median   skill of forecast   Brier   skill of forecast",
    ...forecasters.map((who) => {
      const scores = all.map((one) => one.ranked[who]);
      const figures = [mean(scores), median(scores)].map((v) => v.toFixed(2).padStart(10)).join("");
      const brierScore = mean(all.map((one) => brier(one, who))).toFixed(4);
      const [ranked, beyondTarget] =
        who === "forecast"
          ? ["", ""]
          : [skill(all, who, (one, name) => one.ranked[name]), skill(all, who, brier)];
      return `  ${who.padEnd(46)}${figures}           ${ranked.padEnd(20)} ${brierScore}   ${beyondTarget}`.trimEnd();
    }),
    "",
    "by what became of the gain                          n    ranked score, ppm: forecast, estimate unchanged, reckoned with, common",
    ...courses.map((course) => {
      const some = all.filter((one) => one.course === course);
      const figures = forecasters.slice(0, 4).map((who) =>
        mean(some.map((one) => one.ranked[who]))
          .toFixed(2)
          .padStart(9),
      );
      return `  ${course.padEnd(44)}${String(some.length).padStart(7)}    ${figures.join("")}`;
    }),
    "",
    `the next gain in the forecast's middle half ${percent(inMiddle(all, 0.5))}, in its 95 % ${percent(inMiddle(all, 0.95))}, ` +
      `below its 2.5 % ${percent(mean(all.map((one) => (mixtureCdf(one.forecast, one.came_ppm) < 0.025 ? 1 : 0))))}`,
    "",
    "probability given to being beyond the target, and how often it was",
    reliability(all),
  ].join("\n");
}

/** Share of the cases that came within the middle part of the forecast. */
function inMiddle(all: readonly Scored[], part: number): number {
  const inside = ({ forecast, came_ppm }: Scored) =>
    Math.abs(mixtureCdf(forecast, came_ppm) - 0.5) <= part / 2;
  return mean(all.map((one) => (inside(one) ? 1 : 0)));
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

function reliability(all: readonly Scored[]): string {
  const edges = [0, 0.02, 0.05, 0.1, 0.3, 0.7, 0.9, 0.98, 1.0001];
  return edges
    .slice(1)
    .map((high, i) => {
      const low = edges[i]!;
      const some = all.filter(({ beyond }) => beyond.forecast >= low && beyond.forecast < high);
      const range = `  ${low} to ${Math.min(1, high)}:`;
      if (some.length === 0) return `${range} none`;
      const were = some.filter(({ wasBeyond }) => wasBeyond).length;
      return (
        `${range} given ${percent(mean(some.map(({ beyond }) => beyond.forecast)))}, ` +
        `were ${percent(were / some.length)} of ${some.length}`
      );
    })
    .join("\n");
}
