// A cause that slows the response of a cell on a cast: its signs in the response, and the doubt about the evidence of the
// cast. The reason is in the plumbing or the lag correction. Cleaning does not help, and it passes by itself.
import type { Cause } from "../model/cause.js";
import { logOddsOfSigns, type ResponseSigns, type SignShifts } from "../model/responseSigns.js";
import { slowResponse } from "./slowResponse.js";

interface SlowResponseCause extends Pick<Cause<string>, "sentence" | "action"> {
  /** Prior probability per cast and cell. */
  readonly chance: number;
  /** The shifts of the signs of the response. */
  readonly shifts: SignShifts;
  /** Whether these signs could show the cause; otherwise it is not proposed. */
  readonly isShownBy: (signs: ResponseSigns) => boolean;
}

/** Chance for both cells together, as a share of that for one: they share the water and the power supply (judgement). */
const shareOfBoth = 0.2;

export function slowResponseCause<Name extends string>(
  name: Name,
  { chance, shifts, isShownBy, sentence, action }: SlowResponseCause,
): Cause<Name> {
  return {
    name,
    isTemporary: true,
    propose: ({ cells, response }) => {
      const shown = cells.flatMap((cell) => {
        const signs = response[cell];
        if (signs === undefined || !isShownBy(signs)) return [];
        return [{ cell, logResponse: logOddsOfSigns(signs, shifts) }];
      });
      const [one, other] = shown;
      return [
        ...shown.flatMap(({ cell, logResponse }) =>
          slowResponse(name, [cell], chance, logResponse),
        ),
        ...(one === undefined || other === undefined
          ? []
          : slowResponse(
              name,
              [one.cell, other.cell],
              shareOfBoth * chance,
              one.logResponse + other.logResponse,
            )),
      ];
    },
    matches: ({ isDoubted }) => isDoubted(name),
    sentence,
    action,
  };
}
