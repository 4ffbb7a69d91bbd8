// The rule: the least cleaning that meets the target with the confidence asked for, and fits.
import type { IntensityName } from "../../cast/maintenance.js";

/** A rung as the rule sees it. */
export interface Outlook {
  readonly intensity: IntensityName;
  readonly deep: boolean;
  readonly hands: "watch" | "trained";
  readonly minutes: number;
  readonly probabilityWithinTarget: number;
  /** That it works at all on this cell, by prior and record. */
  readonly probabilityWorks: number;
  /** Why the instrument or the hands aboard rule it out, whatever the time. */
  readonly barred?: string;
}

/** What is asked of the cleaning. */
export interface Asked {
  readonly confidence: number;
  readonly minutesAvailable: number;
  /** That the cell has something that cleaning mends. */
  readonly probabilityMendable: number;
  readonly leastMendable: number;
  /** A cleaning less likely than this to work on this cell is not relied on. */
  readonly leastTrust: number;
}

/** What was chosen, and which clause of the rule spoke. `wanted` is what it would be with all the time there could be. */
export type Choice =
  | { readonly ground: "meets" | "not mendable"; readonly chosen: Outlook }
  | { readonly ground: "time"; readonly chosen: Outlook; readonly wanted: Outlook }
  | {
      readonly ground: "too heavy" | "record";
      readonly chosen: Outlook;
      readonly wanted?: Outlook;
    };

/**
 * 1. Where cleaning is not likely to mend it: the rinse.
 * 2. The least rung of the watch that meets the target and fits; rungs that the record speaks against are left out.
 * 3. Where one would with more time: the hardest that fits.
 * 4. Where none would, but soak or disinfect can still be relied on: the hardest that fits, to be repeated.
 * 5. Where the record says that neither helps: what trained hands can do, the least that meets the target.
 * A rinse is always open: it is done after every cast.
 * @param outlooks lightest first, the rinse in front
 */
export function choose(outlooks: readonly [Outlook, ...Outlook[]], asked: Asked): Choice {
  const [rinse] = outlooks;
  const meets = (outlook: Outlook) => outlook.probabilityWithinTarget >= asked.confidence;
  const fits = (outlook: Outlook) => outlook.minutes <= asked.minutesAvailable;
  const open = outlooks.filter((outlook) => outlook === rinse || isOpen(outlook, asked));
  const watch = open.filter(({ hands }) => hands === "watch");
  if (asked.probabilityMendable < asked.leastMendable)
    return { chosen: rinse, ground: "not mendable" };
  const least = watch.find((outlook) => meets(outlook) && (outlook === rinse || fits(outlook)));
  if (least !== undefined) return { chosen: least, ground: "meets" };
  const hardest = watch.findLast(fits) ?? rinse;
  const withTime = watch.find(meets);
  if (withTime !== undefined) return { ground: "time", chosen: hardest, wanted: withTime };
  if (watch.some(({ deep }) => deep)) return choice("too heavy", hardest, watch.at(-1));
  const trained = open.filter(({ hands }) => hands === "trained");
  const possible = trained.filter(fits);
  return choice(
    "record",
    possible.find(meets) ?? possible.at(-1) ?? hardest,
    trained.find(meets) ?? trained.at(-1),
  );
}

/** Whether instrument, hands and record allow it, whatever the time. */
export function isOpen({ barred, probabilityWorks }: Outlook, { leastTrust }: Asked): boolean {
  return barred === undefined && probabilityWorks >= leastTrust;
}

function choice(
  ground: "too heavy" | "record",
  chosen: Outlook,
  wanted: Outlook | undefined,
): Choice {
  return wanted === undefined || wanted === chosen
    ? { ground, chosen }
    : { ground, chosen, wanted };
}
