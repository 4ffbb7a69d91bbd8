// What to do about a film, by which clause of the rule spoke: plain sentences.
import { rungOf } from "../ladder/intensities.js";
import type { Ladder } from "../ladder/intensity.js";
import type { Choice, Outlook } from "./choose.js";

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
