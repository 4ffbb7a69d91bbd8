// The share of a film that a cleaning leaves, as a distribution with two branches: it works, or it fails. The priors are
// settings; the record of the cell updates them.
import type { CellName } from "../cast/cast.js";
import type { IntensityName } from "../cast/maintenance.js";
import { normalPdf } from "../statistics/normal.js";
import {
  factorAfterFailures,
  isEvidenceOf,
  type JudgedCleaning,
  ruledOut,
} from "./failedCleanings.js";

/** The share of the film that stays: 0 none, 1 all. */
interface Share {
  readonly mean: number;
  readonly sd: number;
}

export interface RecoveryPrior {
  readonly probabilityWorks: number;
  readonly retainedIfWorks: Share;
  readonly retainedIfFails: Share;
  /** Present if it, or a harder one, failed on the present film or repeatedly on this cell. */
  readonly failed?: "on this film" | "on this cell";
}
export type Recovery = Readonly<Record<IntensityName, RecoveryPrior>>;

/** The estimated result of a past cleaning, from the casts before and after it. */
export interface CleaningOutcome {
  readonly intensity: IntensityName;
  readonly cell: CellName;
  readonly retained: Share;
  /** Probability that there was a film to clean. */
  readonly filmProbability: number;
  /** Probability that the film in the cell now, if there is one, is the film that was cleaned. */
  readonly sameFilm: number;
}

/**
 * No published case gives the share of a film that a cleaning leaves; docs/cleaning.md names two cases and what is missing
 * in them [CruiseReports2022]. All numbers are judgement, and so are these two assumptions: success is likely but far from
 * sure, and a cleaning that works leaves little. scripts/proof/recoveryPriors.ts shows how much the advice depends on them.
 */
export const defaultRecovery: Recovery = {
  // Judgement. Water removes loose matter; it seldom moves a film.
  rinse: {
    probabilityWorks: 0.15,
    retainedIfWorks: { mean: 0.2, sd: 0.15 },
    retainedIfFails: { mean: 0.98, sd: 0.03 },
  },
  // Judgement. Dilute detergent removes fresh oil and young slime, and nothing older.
  wash: {
    probabilityWorks: 0.6,
    retainedIfWorks: { mean: 0.08, sd: 0.06 },
    retainedIfFails: { mean: 0.9, sd: 0.1 },
  },
  // Judgement. Ten times stronger than a wash, with time and agitation. It did not restore one line that was opaque with
  // growth [CruiseReports2022]; most films are found younger.
  soak: {
    probabilityWorks: 0.7,
    retainedIfWorks: { mean: 0.04, sd: 0.04 },
    retainedIfFails: { mean: 0.85, sd: 0.15 },
  },
  // Judgement. Hypochlorite kills the living film that detergent leaves [RutalaEtAl1998]; whether it cleans a cell is not
  // published. It fails half as often as a soak.
  disinfect: {
    probabilityWorks: 0.85,
    retainedIfWorks: { mean: 0.03, sd: 0.03 },
    retainedIfFails: { mean: 0.8, sd: 0.2 },
  },
  // Judgement. Considered only after the lighter ones have failed: the rest is then most likely lime, which acid dissolves.
  descale: {
    probabilityWorks: 0.8,
    retainedIfWorks: { mean: 0.03, sd: 0.03 },
    retainedIfFails: { mean: 0.8, sd: 0.2 },
  },
  // A different cell: the film is gone. Its clean gain is unknown and redrawn.
  exchange: {
    probabilityWorks: 1,
    retainedIfWorks: { mean: 0, sd: 0 },
    retainedIfFails: { mean: 0, sd: 0 },
  },
};

/** Weight of the prior, as a number of cleanings: two failures outweigh it (judgement). */
const defaultPriorWeight = 4;

/**
 * The expected recovery of one cell, from the priors and its own record. Each outcome counts as a success with the
 * probability given by the odds of its two branches. `probabilityWorks` has a Beta update. The retained shares move to the
 * mean of the observed ones, each weighted by its precision; the prior counts as `worth` cleanings. The order of the
 * outcomes does not matter, except that an exchange starts a new record. Success counts for the harder intensities of the
 * same kind too, failure for the lighter ones. Acid removes other deposits, so only cleanings with acid count for it.
 * Failures on the present film count more: see failedCleanings.ts.
 * @param outcomes in order of time, of any cell; those of other cells do not count
 */
export function updateRecovery(
  prior: Recovery,
  outcomes: readonly CleaningOutcome[],
  cell: CellName,
  priorWeight: number = defaultPriorWeight,
): Recovery {
  const seen = sinceExchange(outcomes, cell).map((outcome) => ({
    ...outcome,
    success: probabilityOfSuccess(prior[outcome.intensity], outcome.retained),
  }));
  const updated = (name: IntensityName): RecoveryPrior => {
    const { probabilityWorks, retainedIfWorks, retainedIfFails } = prior[name];
    let successes = priorWeight * probabilityWorks;
    let failures = priorWeight * (1 - probabilityWorks);
    for (const { intensity, success, filmProbability } of seen) {
      if (isEvidenceOf(intensity, name, "success")) successes += filmProbability * success;
      if (isEvidenceOf(intensity, name, "failure")) failures += filmProbability * (1 - success);
    }
    const same = seen.filter(({ intensity }) => intensity === name);
    const onFilm = factorAfterFailures(name, seen, (other) => prior[other].probabilityWorks);
    const failed = ruledOut(name, seen);
    return {
      probabilityWorks: (onFilm * successes) / (successes + failures),
      retainedIfWorks: posteriorShare(retainedIfWorks, same, ({ success }) => success, priorWeight),
      retainedIfFails: posteriorShare(
        retainedIfFails,
        same,
        ({ success }) => 1 - success,
        priorWeight,
      ),
      ...(failed === undefined ? {} : { failed }),
    };
  };
  return {
    rinse: updated("rinse"),
    wash: updated("wash"),
    soak: updated("soak"),
    disinfect: updated("disinfect"),
    descale: updated("descale"),
    exchange: prior.exchange,
  };
}

/** The cleanings that failed on the present film, in order of time, without rinses. */
export function failedOnFilm<Outcome extends CleaningOutcome>(
  prior: Recovery,
  outcomes: readonly Outcome[],
  cell: CellName,
): readonly Outcome[] {
  return sinceExchange(outcomes, cell).filter(({ intensity, retained, sameFilm }) => {
    if (intensity === "rinse") return false;
    const success = probabilityOfSuccess(prior[intensity], retained);
    const judged: JudgedCleaning = { intensity, success, sameFilm, filmProbability: 1 };
    return ruledOut(intensity, [judged]) === "on this film";
  });
}

function sinceExchange<Outcome extends CleaningOutcome>(
  outcomes: readonly Outcome[],
  cell: CellName,
): readonly Outcome[] {
  const own = outcomes.filter((outcome) => outcome.cell === cell);
  return own.slice(own.findLastIndex(({ intensity }) => intensity === "exchange") + 1);
}

function probabilityOfSuccess(prior: RecoveryPrior, { mean, sd }: Share): number {
  const { probabilityWorks, retainedIfWorks, retainedIfFails } = prior;
  const works = probabilityWorks * density(mean, sd, retainedIfWorks);
  const fails = (1 - probabilityWorks) * density(mean, sd, retainedIfFails);
  if (works + fails > 0) return works / (works + fails);
  // Both densities underflow to 0: take the nearer one.
  return Math.abs(mean - retainedIfWorks.mean) < Math.abs(mean - retainedIfFails.mean) ? 1 : 0;
}

function density(x: number, sd: number, branch: Share): number {
  const spread = Math.hypot(sd, branch.sd);
  return normalPdf((x - branch.mean) / spread) / spread;
}

function posteriorShare<Seen extends CleaningOutcome>(
  prior: Share,
  seen: readonly Seen[],
  share: (outcome: Seen) => number,
  priorWeight: number,
): Share {
  let weight = priorWeight;
  let sum = priorWeight * prior.mean;
  for (const outcome of seen) {
    const known = prior.sd ** 2 / (prior.sd ** 2 + outcome.retained.sd ** 2);
    const counts = known * share(outcome) * outcome.filmProbability;
    weight += counts;
    sum += counts * Math.max(0, outcome.retained.mean);
  }
  return { mean: sum / weight, sd: prior.sd };
}
