// One line of JSON for each cruise of an archive: its verdicts, or the reason why there are none.
import type { Fault } from "../../read/badInput.js";
import type { VerdictDocument } from "../../verdict/verdict.js";

/** `name` as given; first, so that finished cruises are found without parsing the rest. */
export type ManyLine =
  | { readonly name: string; readonly document: VerdictDocument }
  | { readonly name: string; readonly faults: readonly Fault[] }
  | { readonly name: string; readonly error: string };

const beginning = '{"name":';
const line = /^\{"name":("(?:[^"\\]|\\.)*"),"(document|faults|error)":/;

/** @returns undefined if the text is not such a line */
export function whatIsDone(
  text: string,
): { readonly name: string; readonly faulty: boolean } | undefined {
  const [, name, kind] = line.exec(text) ?? [];
  if (name === undefined || !text.endsWith("}")) return undefined;
  return { name: JSON.parse(name) as string, faulty: kind !== "document" };
}

/** Whether a truncated line may have been one of these. */
export function mayBeCut(text: string): boolean {
  return text.startsWith(beginning) || beginning.startsWith(text);
}
