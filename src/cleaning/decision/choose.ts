// The decision rule: the lightest cleaning that meets the target with the required confidence and fits the time; if there
// is none, the one with the least expected loss.
import type { IntensityName } from "../../cast/maintenance.js";

/** The properties of an intensity for the rule. */
export interface Outlook {
  readonly intensity: IntensityName;
  readonly deep: boolean;
  readonly hands: "watch" | "trained";
  readonly minutes: number;
  readonly probabilityWithinTarget: number;
  /** The same, given that cleaning can help the cell. */
  readonly probabilityBringsBack: number;
  /** Minutes of ship's time; see loss.ts. */
  readonly expectedLoss: number;
  /** The reason why instrument or people exclude it, for any available time. */
  readonly barred?: string;
  /** Whether it, or a harder one, failed according to the record. */
  readonly failed?: "on this film" | "on this cell";
}

/** The requirements for the cleaning. */
export interface Required {
  readonly confidence: number;
  readonly minutesAvailable: number;
  /** Probability that the cell has a problem that cleaning removes. */
  readonly probabilityRemovable: number;
  readonly leastRemovable: number;
  /** Given that, the probability that the film is beyond half the target. */
  readonly probabilityClear: number;
  /** Probability that the cell has nothing to clean and reads right to half the target. */
  readonly probabilityReadsRight: number;
}

/** The 95 % interval of the film has to exclude half the target: the upper end, at 97.5 %, by definition. */
export const leastClear = 0.975;

/** The choice, and the clause of the rule that made it. `wanted` is the choice for unlimited time. */
export type Choice =
  | { readonly ground: "meets" | "no film" | "not clear"; readonly chosen: Outlook }
  | { readonly ground: "time"; readonly chosen: Outlook; readonly wanted: Outlook }
  | {
      readonly ground: "least loss" | "record";
      readonly chosen: Outlook;
      readonly wanted?: Outlook;
    };

/**
 * 1. If cleaning is unlikely to help: the rinse.
 * 2. If the rinse meets the target, or the film is not clear: the rinse.
 * 3. The lightest cleaning of the watch that meets the target and fits; those that failed according to the record are
 * excluded.
 * 4. If one would with more time, or if none does: among those that fit, the one with the least expected loss.
 * 5. If soak and disinfect failed according to the record: among the cleanings for trained people, the lightest that meets
 * the target.
 * A rinse is always possible, because it is done after every cast.
 * @param outlooks lightest first, beginning with the rinse
 */
export function choose(outlooks: readonly [Outlook, ...Outlook[]], required: Required): Choice {
  const [rinse] = outlooks;
  const meets = (outlook: Outlook) => outlook.probabilityWithinTarget >= required.confidence;
  const fits = (outlook: Outlook) => outlook.minutes <= required.minutesAvailable;
  const open = outlooks.filter((outlook) => outlook === rinse || isOpen(outlook));
  const watch = open.filter(({ hands }) => hands === "watch");
  if (required.probabilityRemovable < required.leastRemovable)
    return { chosen: rinse, ground: "no film" };
  if (meets(rinse)) return { chosen: rinse, ground: "meets" };
  if (!isClear(required)) return { chosen: rinse, ground: "not clear" };
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

/**
 * A film is clear if it is beyond half the target wherever there is a film, and if the cell hardly can read right. Otherwise
 * the bottles of one more cast are worth more than the cleaning.
 */
export function isClear({
  probabilityClear,
  probabilityReadsRight,
  confidence,
}: Required): boolean {
  return probabilityClear >= leastClear && probabilityReadsRight <= 1 - confidence;
}

/** Whether instrument, people and record allow it, for any available time. */
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
