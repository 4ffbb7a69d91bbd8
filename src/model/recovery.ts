// What a cleaning leaves of a film, as a distribution with two branches: it works, or it does not.
// The priors are settings; a cell's own record of before and after moves them.
import type { CellName } from "../cast/cast.js";
import type { IntensityName } from "../cast/maintenance.js";
import { normalPdf } from "../statistics/normal.js";
import { factorOnFilm, type JudgedCleaning, ruledOut, speaksOf } from "./failuresOnFilm.js";

/** The share of the film that stays, 0 none of it, 1 all of it. */
interface Share {
  readonly mean: number;
  readonly sd: number;
}

export interface RecoveryPrior {
  readonly probabilityWorks: number;
  readonly retainedIfWorks: Share;
  readonly retainedIfFails: Share;
  /** It, or a harder one, failed on the film that is there now, or on this cell time and again; absent where neither. */
  readonly failed?: "on this film" | "on this cell";
}
export type Recovery = Readonly<Record<IntensityName, RecoveryPrior>>;

/** What a past cleaning turned out to have left, as estimated from the casts before and after it. */
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
 * No published case tells what a cleaning leaves of a film; docs/cleaning.md says of two what they do not tell
 * [CruiseReports2022]. That success is likely and far from sure, and that what works leaves little, is judgement, as are all
 * numbers; how much the advice hangs on them: scripts/proof/recoveryPriors.ts.
 */
export const defaultRecovery: Recovery = {
  // Judgement. Water loosens what is loose; it seldom moves a film.
  rinse: {
    probabilityWorks: 0.15,
    retainedIfWorks: { mean: 0.2, sd: 0.15 },
    retainedIfFails: { mean: 0.98, sd: 0.03 },
  },
  // Judgement. Dilute detergent takes fresh oil and young slime, and nothing older.
  wash: {
    probabilityWorks: 0.6,
    retainedIfWorks: { mean: 0.08, sd: 0.06 },
    retainedIfFails: { mean: 0.9, sd: 0.1 },
  },
  // Judgement. Ten times stronger than a wash, with time and agitation. One line opaque with growth did not come back by
  // it [CruiseReports2022]; most films are caught younger.
  soak: {
    probabilityWorks: 0.7,
    retainedIfWorks: { mean: 0.04, sd: 0.04 },
    retainedIfFails: { mean: 0.85, sd: 0.15 },
  },
  // Judgement. Hypochlorite kills the living film that detergent leaves [RutalaEtAl1998]; that it frees a cell is not
  // published. It fails half as often as a soak.
  disinfect: {
    probabilityWorks: 0.85,
    retainedIfWorks: { mean: 0.03, sd: 0.03 },
    retainedIfFails: { mean: 0.8, sd: 0.2 },
  },
  // Judgement. Considered only once the lighter ones have failed: what is left then is most likely lime, which acid
  // dissolves.
  descale: {
    probabilityWorks: 0.8,
    retainedIfWorks: { mean: 0.03, sd: 0.03 },
    retainedIfFails: { mean: 0.8, sd: 0.2 },
  },
  // Another cell: the film is gone, and with it what was known of the clean gain, which is drawn anew.
  exchange: {
    probabilityWorks: 1,
    retainedIfWorks: { mean: 0, sd: 0 },
    retainedIfFails: { mean: 0, sd: 0 },
  },
};

/** How many cleanings the prior is worth: two failures outweigh it (judgement). */
const priorWorth = 4;

/**
 * The recovery to expect of one cell, from the priors and its own record.
 *
 * Each outcome counts as a success in so far as it looks like one: by the odds of its two branches. Beta update of
 * `probabilityWorks`; the retained shares move to the mean of those seen, each with a weight by how well it is
 * known, with the prior counting as `worth` cleanings. Closed form, and the order does not matter, but
 * that an exchange begins the record anew. Success counts for the harder rungs of the same kind too, failure for
 * the lighter ones; acid works on other deposits and learns only from itself. What failed on the film that is
 * there now counts more: see failuresOnFilm.ts.
 * @param outcomes in order of time, of any cell; those of other cells do not count
 */
export function updateRecovery(
  prior: Recovery,
  outcomes: readonly CleaningOutcome[],
  cell: CellName,
  worth: number = priorWorth,
): Recovery {
  const seen = sinceExchange(outcomes, cell).map((outcome) => ({
    ...outcome,
    success: looksLikeSuccess(prior[outcome.intensity], outcome.retained),
  }));
  const updated = (name: IntensityName): RecoveryPrior => {
    const { probabilityWorks, retainedIfWorks, retainedIfFails } = prior[name];
    let successes = worth * probabilityWorks;
    let failures = worth * (1 - probabilityWorks);
    for (const { intensity, success, filmProbability } of seen) {
      if (speaksOf(intensity, name, "success")) successes += filmProbability * success;
      if (speaksOf(intensity, name, "failure")) failures += filmProbability * (1 - success);
    }
    const same = seen.filter(({ intensity }) => intensity === name);
    const onFilm = factorOnFilm(name, seen, (other) => prior[other].probabilityWorks);
    const failed = ruledOut(name, seen);
    return {
      probabilityWorks: (onFilm * successes) / (successes + failures),
      retainedIfWorks: shrunk(retainedIfWorks, same, ({ success }) => success, worth),
      retainedIfFails: shrunk(retainedIfFails, same, ({ success }) => 1 - success, worth),
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

/** The cleanings that failed on the film that is in the cell now, in order of time, rinses apart. */
export function failedOnFilm<Outcome extends CleaningOutcome>(
  prior: Recovery,
  outcomes: readonly Outcome[],
  cell: CellName,
): readonly Outcome[] {
  return sinceExchange(outcomes, cell).filter(({ intensity, retained, sameFilm }) => {
    if (intensity === "rinse") return false;
    const success = looksLikeSuccess(prior[intensity], retained);
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

function looksLikeSuccess(prior: RecoveryPrior, { mean, sd }: Share): number {
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

function shrunk<Seen extends CleaningOutcome>(
  prior: Share,
  seen: readonly Seen[],
  share: (outcome: Seen) => number,
  worth: number,
): Share {
  let weight = worth;
  let sum = worth * prior.mean;
  for (const outcome of seen) {
    const known = prior.sd ** 2 / (prior.sd ** 2 + outcome.retained.sd ** 2);
    const counts = known * share(outcome) * outcome.filmProbability;
    weight += counts;
    sum += counts * Math.max(0, outcome.retained.mean);
  }
  return { mean: sum / weight, sd: prior.sd };
}
