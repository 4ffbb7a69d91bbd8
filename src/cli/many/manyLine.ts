// One line of JSON for each cruise of an archive: its verdicts, or why there are none.
import type { Fault } from "../../read/badInput.js";
import type { VerdictDocument } from "../../verdict/verdict.js";

/** `name` as it was given; first, so that what is done can be told without reading the rest. */
export type ManyLine =
  | { readonly name: string; readonly document: VerdictDocument }
  | { readonly name: string; readonly faults: readonly Fault[] }
  | { readonly name: string; readonly error: string };

const beginning = '{"name":';
const line = /^\{"name":("(?:[^"\\]|\\.)*"),"(document|faults|error)":/;

/** @returns undefined if the text is no line of ours */
export function whatIsDone(
  text: string,
): { readonly name: string; readonly faulty: boolean } | undefined {
  const [, name, kind] = line.exec(text) ?? [];
  if (name === undefined || !text.endsWith("}")) return undefined;
  return { name: JSON.parse(name) as string, faulty: kind !== "document" };
}

/** Whether a line that was cut may have been one of ours. */
export function mayBeCut(text: string): boolean {
  return text.startsWith(beginning) || beginning.startsWith(text);
}
