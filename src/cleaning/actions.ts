// What to do about each cause, and about a film by which clause of the rule spoke: plain sentences.
import type { CauseName } from "../causes/causeNames.js";
import type { Choice } from "./choose.js";
import { rungOf } from "./intensities.js";
import type { Ladder } from "./intensity.js";

/** For a cause that leads, where no film is to be cleaned off. */
export const actionByCause: Readonly<Record<CauseName, string>> = {
  sound: "Rinse the cell as after every cast; nothing else is called for.",
  fouling:
    "Rinse the cell as usual, and close six or more bottles in deep, even water at the next station to settle whether there is a film.",
  transient:
    "Rinse the cell as usual: what it took in has gone again; look at the legs of the next cast.",
  "calibration-shift":
    "Rinse the cell as usual and do not clean for it: correct it against bottles, fit the spare if that cannot wait, and send this cell for calibration.",
  "pressure-response":
    "Rinse the cell as usual and do not clean for it: close bottles at several depths, fit a pressure term, and have the cell calibrated.",
  "temperature-error":
    "Rinse the cell as usual and check the thermometer pair: compare the two in deep, even water, and fit the spare thermometer if they differ.",
  "reference-error":
    "Rinse the cell as usual and look to the references: run the standards again, and measure this cast's duplicate or stored samples afresh.",
  "thermal-lag":
    "Rinse the cell as usual: fit the thermal lag from the two legs; cleaning does not touch it.",
  flow: "Rinse the cell as usual and check the pump and the plumbing: kinks, plugs left in, air, a worn pump seal.",
  water:
    "Rinse the cell as usual: the water differed between the legs; compare them in deep, even water at the next station.",
  undetermined:
    "Rinse the cell as usual, and close six or more bottles in deep, even water at the next station: the evidence does not settle it.",
};

/** What to do where the rule found a film to clean off. */
export function cleaningAction(choice: Choice, ladder: Ladder): string {
  const { chosen, ground, wanted } = choice;
  const summary = summaryOf(chosen.intensity, ladder);
  const better = wanted === undefined ? undefined : lowerFirst(summaryOf(wanted.intensity, ladder));
  switch (ground) {
    case "time":
      return `${summary}: it is the hardest that fits the time. When there is more, ${better}.`;
    case "too heavy":
      return better === undefined
        ? `${summary}, look at the next cast, and clean again if it has not recovered.`
        : `${summary}: it is the hardest that fits the time, and will not be enough. When there is more, ${better}, and clean again if the next cast has not recovered.`;
    case "record":
      if (chosen.hands === "trained") {
        return `By trained hands, aboard or ashore: ${lowerFirst(summary)}. Past cleanings of this cell did not help.`;
      }
      return better === undefined
        ? `${summary}: past cleanings of this cell did not help. Correct it against bottles until it can be exchanged by trained hands or ashore.`
        : `${summary} and correct it against bottles: past cleanings did not help. When there is time, have trained hands do this: ${better}.`;
    default:
      return `${summary}.`;
  }
}

function summaryOf(name: Choice["chosen"]["intensity"], ladder: Ladder): string {
  return rungOf(ladder, name).summary;
}

function lowerFirst(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
