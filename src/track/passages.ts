// How a bad laboratory run passes to the next cast: as a whole, or not at all.
import { causeNamed } from "../causes/index.js";
import type { Doubt } from "../model/eventHistory.js";
import type { ErrorEvolution, ErrorEvolutions } from "../model/sharedError.js";
import type { Interval } from "../model/updates.js";

/** How the shared errors pass to the next cast, the doubts that last, and the log probability of this. */
export interface Passage {
  readonly logOdds: number;
  readonly evolutions: ErrorEvolutions;
  readonly lasting: readonly Doubt[];
}

/**
 * A run has the samples of one or two casts [CruiseReports2021]. So a bad one that has lasted once seldom lasts again: probability
 * for each cast (judgement).
 */
const lastsAgain = 0.1;

/**
 * The error of a bad laboratory run does not pass to the next cast in part. If it is not known whether the next cast is of the
 * same run, it passes as a whole, or not at all.
 */
export function passages({ evolutions }: Interval, doubts: readonly Doubt[]): readonly Passage[] {
  const lasting = doubts.filter(({ cause }) => evolutionOf(cause, evolutions)?.kind === "constant");
  const open = doubts.find(({ cause }) => evolutionOf(cause, evolutions)?.kind === "partly-new");
  const how = open && evolutionOf(open.cause, evolutions);
  if (open === undefined || how?.kind !== "partly-new")
    return [{ logOdds: 0, evolutions, lasting }];
  const name = causeNamed(open.cause).doubtLastsWith!;
  const kept = open.lasted ? lastsAgain : how.kept;
  return [
    {
      logOdds: Math.log(kept),
      evolutions: { ...evolutions, [name]: { kind: "constant" } },
      lasting: [...lasting, { ...open, lasted: true }],
    },
    {
      logOdds: Math.log1p(-kept),
      evolutions: { ...evolutions, [name]: { kind: "independent" } },
      lasting,
    },
  ];
}

/** The change of the shared error with which a doubt lasts. */
function evolutionOf(cause: string, evolutions: ErrorEvolutions): ErrorEvolution | undefined {
  const name = causeNamed(cause).doubtLastsWith;
  return name === undefined ? undefined : evolutions[name];
}
