// A cause by which a cell answers slowly on a cast: its signs in the response and its doubt about the cast's own
// evidence. It lies in the plumbing or the correction: cleaning does not mend it, and it passes by itself.
import type { Cause } from "../model/cause.js";
import { logOddsOfSigns, type MovedSigns, type ResponseSigns } from "../model/responseSigns.js";
import { slowAnswer } from "./slowAnswer.js";

interface SlowCause extends Pick<Cause<string>, "sentence" | "action"> {
  /** Prior probability on a cast, of a cell. */
  readonly chance: number;
  /** How it moves the signs of the response. */
  readonly moved: MovedSigns;
  /** Whether these signs could show it; it is not proposed where they could not. */
  readonly seenBy: (signs: ResponseSigns) => boolean;
}

export function slowCause<Name extends string>(
  name: Name,
  { chance, moved, seenBy, sentence, action }: SlowCause,
): Cause<Name> {
  return {
    name,
    mendedByCleaning: false,
    passesByItself: true,
    leftAndCorrected: false,
    beginnings: [],
    propose: ({ cells, response }) =>
      cells.flatMap((cell) => {
        const signs = response[cell];
        if (signs === undefined || !seenBy(signs)) return [];
        return slowAnswer(name, cell, chance, logOddsOfSigns(signs, moved));
      }),
    names: ({ doubt }) => doubt?.cause === name,
    sentence,
    action,
  };
}
