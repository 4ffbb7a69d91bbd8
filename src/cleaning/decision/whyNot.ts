// The reason why an intensity was not chosen, and whether it was possible at all.
import { type Choice, isOpen, type Outlook, type Required } from "./choose.js";
import { noun, percent } from "./wording.js";

export function whyNot(
  outlook: Outlook,
  { chosen, ground }: Choice,
  required: Required,
): { readonly fits: boolean; readonly reason?: string } {
  const inTime = outlook.minutes <= required.minutesAvailable;
  const fits = inTime && (outlook.intensity === "rinse" || isOpen(outlook));
  if (outlook === chosen) return { fits };
  const reason = () => {
    if (outlook.barred !== undefined) return outlook.barred;
    if (ground === "no film") return "cleaning is not likely to help";
    if (ground === "not clear") return "the film is not clear enough for it";
    if (outlook.failed !== undefined && outlook.intensity !== "rinse")
      return `this or a harder cleaning failed ${outlook.failed}`;
    if (!inTime) return `${outlook.minutes} minutes, there are ${required.minutesAvailable}`;
    if (outlook.hands === "trained" && ground !== "record") {
      return "for trained people, once lighter cleaning has failed";
    }
    if (outlook.probabilityWithinTarget < required.confidence) {
      const reaches = `${percent(outlook.probabilityWithinTarget)} within the target, ${percent(required.confidence)} required`;
      return outlook.probabilityWithinTarget > chosen.probabilityWithinTarget
        ? `${reaches}, and it costs more`
        : reaches;
    }
    return `harder than needed: ${noun(chosen.intensity)} is enough`;
  };
  return { fits, reason: reason() };
}
