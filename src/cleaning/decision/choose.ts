// The rule: the least cleaning that meets the target with the confidence required, and fits; where none does, the one with
// the least expected loss.
import type { IntensityName } from "../../cast/maintenance.js";

/** A rung as the rule sees it. */
export interface Outlook {
  readonly intensity: IntensityName;
  readonly deep: boolean;
  readonly hands: "watch" | "trained";
  readonly minutes: number;
  readonly probabilityWithinTarget: number;
  /** The same, given that the cell has something that cleaning mends. */
  readonly probabilityBringsBack: number;
  /** Minutes of ship's time; see loss.ts. */
  readonly expectedLoss: number;
  /** Why the instrument or the hands aboard rule it out, whatever the time. */
  readonly barred?: string;
  /** It, or a harder one, failed on the record. */
  readonly failed?: "on this film" | "on this cell";
}

/** What is required of the cleaning. */
export interface Required {
  readonly confidence: number;
  readonly minutesAvailable: number;
  /** That the cell has something that cleaning mends. */
  readonly probabilityMendable: number;
  readonly leastMendable: number;
  /** Given that it has, that the film is beyond half the target. */
  readonly probabilityClear: number;
}

/** A film is clear where its 95 % interval excludes half the target: the upper end, at 97.5 %, by definition. */
export const leastClear = 0.975;

/** What was chosen, and which clause of the rule spoke. `wanted` is what it would be with all the time there could be. */
export type Choice =
  | { readonly ground: "meets" | "not mendable" | "not clear"; readonly chosen: Outlook }
  | { readonly ground: "time"; readonly chosen: Outlook; readonly wanted: Outlook }
  | {
      readonly ground: "least loss" | "record";
      readonly chosen: Outlook;
      readonly wanted?: Outlook;
    };

/**
 * 1. Where cleaning is not likely to mend it: the rinse.
 * 2. Where the rinse meets the target, or the film is not clear: the rinse.
 * 3. The least rung of the watch that meets the target and fits; rungs that failed on the record are left out.
 * 4. Where one would with more time, or none does: of those that fit, the one with the least expected loss.
 * 5. Where soak and disinfect failed on the record: what trained hands can do, the least that meets the target.
 * A rinse is always open: it is done after every cast.
 * @param outlooks lightest first, the rinse in front
 */
export function choose(outlooks: readonly [Outlook, ...Outlook[]], required: Required): Choice {
  const [rinse] = outlooks;
  const meets = (outlook: Outlook) => outlook.probabilityWithinTarget >= required.confidence;
  const fits = (outlook: Outlook) => outlook.minutes <= required.minutesAvailable;
  const open = outlooks.filter((outlook) => outlook === rinse || isOpen(outlook));
  const watch = open.filter(({ hands }) => hands === "watch");
  if (required.probabilityMendable < required.leastMendable)
    return { chosen: rinse, ground: "not mendable" };
  if (meets(rinse)) return { chosen: rinse, ground: "meets" };
  if (required.probabilityClear < leastClear) return { chosen: rinse, ground: "not clear" };
  const least = watch.find((outlook) => outlook !== rinse && meets(outlook) && fits(outlook));
  if (least !== undefined) return { chosen: least, ground: "meets" };
  const possible = leastLoss(watch.filter(fits)) ?? rinse;
  const withTime = watch.find(meets);
  if (withTime !== undefined) return { ground: "time", chosen: possible, wanted: withTime };
  if (watch.some(({ deep }) => deep)) return choice("least loss", possible, leastLoss(watch));
  const trained = open.filter(({ hands }) => hands === "trained");
  const inTime = trained.filter(fits);
  return choice(
    "record",
    inTime.find(meets) ?? inTime.at(-1) ?? possible,
    trained.find(meets) ?? trained.at(-1),
  );
}

/** Whether instrument, hands and record allow it, whatever the time. */
export function isOpen({ barred, failed }: Outlook): boolean {
  return barred === undefined && failed === undefined;
}

function leastLoss(outlooks: readonly Outlook[]): Outlook | undefined {
  return outlooks.reduce<Outlook | undefined>(
    (best, one) => (best === undefined || one.expectedLoss < best.expectedLoss ? one : best),
    undefined,
  );
}

function choice(
  ground: "least loss" | "record",
  chosen: Outlook,
  wanted: Outlook | undefined,
): Choice {
  return wanted === undefined || wanted === chosen
    ? { ground, chosen }
    : { ground, chosen, wanted };
}
