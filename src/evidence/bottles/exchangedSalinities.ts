// Salinities of two casts with their labels exchanged: those of each cast follow the CTD of the other.
import { madScale } from "../../statistics/madScale.js";
import { type BottleResiduals, bottleLabel } from "./bottleResiduals.js";
import { besideCtd, type SalinityBesideCtd } from "./exchangedBottles.js";

/** Fewer bottles in common do not show it (judgement). */
const fewest = 4;
/** Only a cast whose salinities scatter by more than this about its own CTD is a candidate: three times the laboratory's error, PSS-78 (judgement). */
const scattered = 0.003;
/** The scatter about the other cast's CTD is at most this, PSS-78, and less than this share of that about its own (judgement). */
const follows = { within: 0.005, share: 0.25 };
/**
 * Number of casts kept for comparison: labels are exchanged between casts sampled or measured about the same time (judgement).
 */
const latestKept = 4;

/** A cast whose salinities do not follow its CTD. */
export interface ScatteredSalinities {
  readonly cast: string;
  readonly bottles: readonly (SalinityBesideCtd & { readonly bottle: string })[];
}

/** The cast with its salinities beside the first cell that was read, if they scatter widely; otherwise undefined. */
export function scatteredSalinities(
  cast: string,
  { residuals }: BottleResiduals,
): ScatteredSalinities | undefined {
  const bottles = residuals.map((one) => ({ bottle: one[0]!.bottle.bottle, ...besideCtd(one) }));
  const own = { cast, bottles };
  return scatter(own, own) > scattered ? own : undefined;
}

/** The latest of these casts, this one included. */
export function latestScattered(
  earlier: readonly ScatteredSalinities[],
  own: ScatteredSalinities | undefined,
): readonly ScatteredSalinities[] {
  return own === undefined ? earlier : [...earlier, own].slice(-latestKept);
}

/** The earlier cast with which the salinities were exchanged; undefined if there is none. */
export function exchangedWith(
  own: ScatteredSalinities,
  earlier: readonly ScatteredSalinities[],
): string | undefined {
  return earlier.find((other) => {
    const crossed = Math.max(scatter(own, other), scatter(other, own));
    const apart = Math.min(scatter(own, own), scatter(other, other));
    return crossed < follows.within && crossed < follows.share * apart;
  })?.cast;
}

/** Without the bottles of the cast, whose salinities belong to the other. */
export function withoutExchanged(
  { residuals, leftOut, notes }: BottleResiduals,
  cast: string,
  other: string,
): BottleResiduals {
  const why = `the salinities of casts ${other} and ${cast} each follow the CTD of the other cast: labels exchanged. Exchange them in the bottle file`;
  const exchanged = residuals.map(([one]) => ({ what: bottleLabel(one!.bottle), why }));
  const note = `bottles excluded: ${why}, and assess again`;
  return { residuals: [], leftOut: [...leftOut, ...exchanged], notes: [...notes, note] };
}

/** Scatter of the salinities of one cast about the CTD of another, bottle by bottle; NaN with too few in common. */
function scatter(laboratory: ScatteredSalinities, ctd: ScatteredSalinities): number {
  const read = new Map(ctd.bottles.map((one) => [one.bottle, one.ctd]));
  const differences = laboratory.bottles.flatMap((one) => {
    const there = read.get(one.bottle);
    return there === undefined ? [] : [one.laboratory - there];
  });
  return differences.length < fewest ? Number.NaN : madScale(differences);
}
