// What to do about each cause, and about a film by which clause of the rule spoke: plain sentences.
import type { CauseName } from "../../model/causeNames.js";
import { rungOf } from "../ladder/intensities.js";
import type { Ladder } from "../ladder/intensity.js";
import type { Choice, Outlook } from "./choose.js";

/** For a cause that leads, where no film is to be cleaned off. */
export const actionByCause: Readonly<Record<CauseName, string>> = {
  sound: "Rinse the cell as after every cast; nothing else is called for.",
  fouling:
    "Rinse the cell as usual: whether there is a film is open, and the verdict says what would decide it.",
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
    "Rinse the cell as usual: the evidence does not settle what it is, and the verdict says what would.",
};

/** What to do where the rule found a film to clean off. */
export function cleaningAction(choice: Choice, ladder: Ladder): string {
  const { chosen } = choice;
  const summary = rungOf(ladder, chosen.intensity).summary;
  const inSentence = ({ intensity }: Outlook) => lowerFirst(rungOf(ladder, intensity).summary);
  switch (choice.ground) {
    case "time":
      return `${summary}: it is the hardest that fits the time. When there is more, ${inSentence(choice.wanted)}.`;
    case "too heavy":
      return choice.wanted === undefined
        ? `${summary}, look at the next cast, and clean again if it has not recovered.`
        : `${summary}: it is the hardest that fits the time, and will not be enough. When there is more, ${inSentence(choice.wanted)}, and clean again if the next cast has not recovered.`;
    case "record":
      if (chosen.hands === "trained") {
        return `By trained hands, aboard or ashore: ${inSentence(chosen)}. Past cleanings of this cell did not help.`;
      }
      return choice.wanted === undefined
        ? `${summary}: past cleanings of this cell did not help. Correct it against bottles until it can be exchanged by trained hands or ashore.`
        : `${summary} and correct it against bottles: past cleanings did not help. When there is time, have trained hands do this: ${inSentence(choice.wanted)}.`;
    default:
      return `${summary}.`;
  }
}

function lowerFirst(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
