// Excluded data, and notes of the readers.
import type { InputFile } from "../../cast/inputFile.js";
import type { Verdict } from "../../verdict/verdict.js";
import { leftOutWords } from "../../words/leftOut.js";
import type { RowWriter } from "./adviceRows.js";

/** More than this many are only counted. */
const mostListed = 8;

export function leftOutRows(verdict: Verdict, row: RowWriter): string[] {
  return listed(leftOutWords(verdict)).map((text) => row("left out", text));
}

export function inputRows(inputs: readonly InputFile[], row: RowWriter): string[] {
  return inputs.flatMap(({ name, rows, leftOut, notes }) => [
    ...(leftOut.length === 0
      ? []
      : [
          row(
            "left out",
            `${name}: ${leftOut.length} of ${rows} rows, first line ${leftOut[0]!.line}: ${leftOut[0]!.why}`,
          ),
        ]),
    ...listed(notes).map((note) => row("note", `${name}: ${note}`)),
  ]);
}

export function listed(texts: readonly string[]): readonly string[] {
  const rest = texts.length - mostListed;
  return rest > 0 ? [...texts.slice(0, mostListed), `and ${rest} more`] : texts;
}
