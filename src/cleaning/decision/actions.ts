// The action in plain sentences, for each clause of the rule.
import type { CellName } from "../../cast/cast.js";
import { causeNamed } from "../../causes/index.js";
import { rungOf } from "../ladder/intensities.js";
import type { Ladder } from "../ladder/intensity.js";
import type { Choice, Outlook, Required } from "./choose.js";
import type { LeadingCause } from "./removable.js";
import { lowerFirst, named, percent, usualRinse } from "./wording.js";

/** @param tried whether a cleaning failed on this film already */
export function actionOf(
  cell: CellName,
  choice: Choice,
  leading: LeadingCause,
  ladder: Ladder,
  required: Required,
  tried: boolean,
): string {
  const { chosen } = choice;
  const summary = ({ intensity }: Outlook) => named([cell], rungOf(ladder, intensity).summary);
  const later = (wanted: Outlook) => `When there is more time: ${lowerFirst(summary(wanted))}.`;
  switch (choice.ground) {
    case "no film":
      return `${named([cell], `${usualRinse} ${causeNamed(leading.cause).action}`.trimEnd())}${settleFilm(leading, required)}`;
    case "not clear":
      return (
        `${summary(chosen)}. The next casts with bottles in deep, even water will show whether a film is large ` +
        "enough to clean for."
      );
    case "time":
      return `${summary(chosen)}. ${later(choice.wanted)}`;
    case "least loss":
      return (
        `${summary(chosen)}. ${choice.wanted === undefined ? "" : `${later(choice.wanted)} `}` +
        `Check on the next cast whether the cleaning worked${tried ? ", and have the spare ready" : ""}.`
      );
    case "record":
      if (chosen.hands === "trained") return `By trained people: ${lowerFirst(summary(chosen))}.`;
      return (
        `${summary(chosen)}. Have the cell checked, and correct its data against bottles meanwhile. ` +
        (choice.wanted === undefined
          ? "It takes trained people, aboard or ashore."
          : `By trained people, when there is time: ${lowerFirst(summary(choice.wanted))}.`)
      );
    default:
      return `${summary(chosen)}.`;
  }
}

/** Action if another cause is more probable, but a film is too probable to be ignored. */
function settleFilm({ cause }: LeadingCause, required: Required): string {
  const { probabilityRemovable, confidence } = required;
  const asksAnyhow = cause === "fouling" || cause === "undetermined";
  // Below a tenth the verdict is settled, and nothing is listed that would decide.
  if (asksAnyhow || probabilityRemovable <= Math.max(0.1, 1 - confidence)) return "";
  return ` A film is ${percent(probabilityRemovable)} probable. See "would decide".`;
}
