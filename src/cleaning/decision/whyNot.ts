// Why a rung was not chosen, and whether it could have been done at all.
import { type Asked, type Choice, isOpen, type Outlook } from "./choose.js";
import { percent } from "./sensitivity.js";

export function whyNot(
  outlook: Outlook,
  { chosen, ground }: Choice,
  asked: Asked,
): { readonly fits: boolean; readonly reason?: string } {
  const inTime = outlook.minutes <= asked.minutesAvailable;
  const fits = inTime && (outlook.intensity === "rinse" || isOpen(outlook, asked));
  if (outlook === chosen) return { fits };
  const reason = () => {
    if (outlook.barred !== undefined) return outlook.barred;
    if (ground === "not mendable") return "cleaning is not likely to mend it";
    if (!fits && inTime) {
      return `the record of this cell speaks against it: it works with probability ${percent(outlook.probabilityWorks)}`;
    }
    if (!inTime) return `it takes ${outlook.minutes} minutes, there are ${asked.minutesAvailable}`;
    if (outlook.hands === "trained" && ground !== "record") {
      return "for trained hands, once lighter cleaning no longer helps";
    }
    if (outlook.probabilityWithinTarget < asked.confidence) {
      return `${percent(outlook.probabilityWithinTarget)} within the target, ${percent(asked.confidence)} is asked for`;
    }
    return `harder than needed: ${chosen.intensity} will do`;
  };
  return { fits, reason: reason() };
}
