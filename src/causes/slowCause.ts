// A cause that slows the response of a cell on a cast: its signs in the response, and the doubt about the evidence of the
// cast. The reason is in the plumbing or the lag correction. Cleaning does not help, and it passes by itself.
import type { Cause } from "../model/cause.js";
import { logOddsOfSigns, type MovedSigns, type ResponseSigns } from "../model/responseSigns.js";
import { slowAnswer } from "./slowAnswer.js";

interface SlowCause extends Pick<Cause<string>, "sentence" | "action"> {
  /** Prior probability per cast and cell. */
  readonly chance: number;
  /** The shifts of the signs of the response. */
  readonly moved: MovedSigns;
  /** Whether these signs could show it; it is not proposed otherwise. */
  readonly seenBy: (signs: ResponseSigns) => boolean;
}

export function slowCause<Name extends string>(
  name: Name,
  { chance, moved, seenBy, sentence, action }: SlowCause,
): Cause<Name> {
  return {
    name,
    removedByCleaning: false,
    isTemporary: true,
    isCorrectedOnly: false,
    initialStates: [],
    propose: ({ cells, response }) =>
      cells.flatMap((cell) => {
        const signs = response[cell];
        if (signs === undefined || !seenBy(signs)) return [];
        return slowAnswer(name, cell, chance, logOddsOfSigns(signs, moved));
      }),
    matches: ({ doubt }) => doubt?.cause === name,
    sentence,
    action,
  };
}
