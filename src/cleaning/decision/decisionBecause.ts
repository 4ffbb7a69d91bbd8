// The reason for this cleaning: first the state of the cell, then the effect of the cleaning, in sentences with the
// numbers.
import type { CellName } from "../../cast/cast.js";
import { capitalised, ppmWords } from "../../causes/sentences.js";
import { type Choice, isOpen, leastClear, type Outlook, type Required } from "./choose.js";
import type { FilmGiven, LeadingCause } from "./removable.js";
import {
  cellWords,
  type FailedCleaning,
  leastToCall,
  lowerFirst,
  noun,
  percent,
  triedWords,
} from "./wording.js";

/** Inputs of the sentences beside the choice. */
interface ReasonInputs {
  readonly cell: CellName;
  readonly film: FilmGiven;
  readonly leading: LeadingCause;
  readonly failed: readonly FailedCleaning[];
  /** Salinity, PSS-78, and the same as a gain error. */
  readonly target: number;
  readonly target_ppm: number;
}

export function decisionBecause(
  choice: Choice,
  outlooks: readonly Outlook[],
  required: Required,
  inputs: ReasonInputs,
): string {
  const { chosen } = choice;
  const { target, target_ppm, leading } = inputs;
  const cell = cellWords([inputs.cell]);
  const film = ppmWords(inputs.film.size);
  const fouled = percent(required.probabilityRemovable);
  const tried = triedWords(inputs.failed);
  const state =
    required.probabilityRemovable < leastToCall
      ? `${tried === undefined ? "" : `${capitalised(tried)}. `}If ${cell} is fouled (${fouled}), its film is ${film}.`
      : tried === undefined
        ? `Fouled (${fouled}), a film of ${film}.`
        : `${capitalised(tried)}, still a film of ${film} (fouled, ${fouled}).`;
  const brings = (outlook: Outlook) => {
    const back = percent(outlook.probabilityBringsBack);
    const all = percent(outlook.probabilityWithinTarget);
    // The rule uses all hypotheses; "brings back" assumes that the cell is fouled.
    const also =
      back === all
        ? ""
        : ` The cell may also be clean: in total it is within ${target} with ${all} probability.`;
    return (
      `${capitalised(noun(outlook.intensity))} brings ${cell} back within ${target} with ` +
      `${back} probability (${percent(required.confidence)} required).${also}`
    );
  };
  const reaches = ({ intensity, probabilityBringsBack }: Outlook) =>
    `${capitalised(noun(intensity))} reaches ${percent(probabilityBringsBack)}`;
  switch (choice.ground) {
    case "no film":
      return (
        `${tried === undefined ? "" : `${capitalised(tried)} without effect. `}A film in ${cell} is ${fouled} probable ` +
        `(${percent(required.leastRemovable)} required for a cleaning). The most probable cause is ${leading.cause} (${percent(leading.probability)}).`
      );
    case "not clear":
      return (
        (required.probabilityClear < leastClear
          ? `${state} Only a film can be cleaned off: the rest of the error of ${cell} is calibration. The 95 % interval of the film includes less than half the target (${(target_ppm / 2).toFixed(0)} ppm).`
          : `${state} With ${percent(required.probabilityReadsRight)} probability ${cell} has nothing to clean and reads right. A cleaning requires ${percent(1 - required.confidence)} or less.`) +
        " No harder cleaning without clearer evidence."
      );
    case "meets":
      return [state, brings(chosen), lighter(chosen, outlooks, required)].join(" ").trim();
    case "time":
      return `${state} In ${minutes(required.minutesAvailable)}, ${lowerFirst(brings(chosen))} ${reaches(choice.wanted)} and takes ${minutes(choice.wanted.minutes)}.`;
    case "least loss":
      return [
        state,
        brings(chosen),
        choice.wanted === undefined
          ? `No cleaning that the watch can do reaches ${percent(required.confidence)}. This one has the least expected loss.`
          : `${reaches(choice.wanted)} and takes ${minutes(choice.wanted.minutes)}. Only ${required.minutesAvailable} are available.`,
        ...(tried === undefined ? [] : spare(outlooks)),
      ].join(" ");
    case "record":
      return [
        state,
        ...(tried === undefined
          ? ["Cleaning by the watch failed repeatedly on this cell."]
          : ["The watch has nothing harder that fits this cell."]),
        brings(chosen),
        ...(chosen.hands === "trained" ? [] : spare(outlooks)),
      ].join(" ");
  }
}

/** The next lighter possible cleaning that does not meet the target. */
function lighter(chosen: Outlook, outlooks: readonly Outlook[], required: Required): string {
  const one = outlooks
    .slice(0, outlooks.indexOf(chosen))
    .findLast((outlook) => isOpen(outlook) || outlook.intensity === "rinse");
  if (one === undefined || one.probabilityWithinTarget >= required.confidence) return "";
  return `${capitalised(noun(one.intensity))} reaches only ${percent(one.probabilityBringsBack)}.`;
}

function spare(outlooks: readonly Outlook[]): readonly string[] {
  const one = outlooks.find(({ intensity, barred }) => intensity === "exchange" && !barred);
  if (one === undefined) return [];
  return [`${capitalised(noun("exchange"))} reaches ${percent(one.probabilityBringsBack)}.`];
}

function minutes(count: number): string {
  return count === 1 ? "1 minute" : `${count} minutes`;
}
