// The answer as the last lines of a summary, and in three lines.
import type { CellName } from "../../cast/cast.js";
import { gainWords } from "../../causes/sentences.js";
import type { Verdict } from "../../verdict/verdict.js";
import { dataWords } from "../../words/dataWords.js";
import { type CellHeadline, headlineOf } from "../../words/headline.js";
import type { RowWriter } from "./adviceRows.js";
import type { Paint } from "./paint.js";

/** Each cell with its cause and its one number, the data, whose salinity to use, and what to do. */
export function headlineRows(
  verdict: Verdict,
  target: number,
  paint: Paint,
  row: RowWriter,
): string[] {
  const { cells, toDo, salinity } = headlineOf(verdict);
  const beyond = (cell: CellName) =>
    Math.abs(verdict.cells[cell]!.salinityError.at35) > target
      ? `, beyond the target of ${target}`
      : "";
  const cautions = verdict.advice.cautions.length > 0 ? " Steps and cautions are above." : "";
  return [
    ...cells.map(({ cell, clean, cause }) =>
      row(
        `${cell} cell`,
        `${colour(clean, cause, paint)}: ${gainWords(verdict.cells[cell]!.gainError.up)}${beyond(cell)}`,
      ),
    ),
    ...cells.map(({ cell, data }) => row("data", `${cell} cell ${dataWords[data]}`)),
    row("salinity", salinity),
    row("do", `${paint.strong(toDo)}.${cautions}`),
  ];
}

/** Three lines of at most 80 columns: the cells, what to do, whose salinity to use. */
export function briefLines(verdict: Verdict): readonly string[] {
  const { cells, toDo, salinity } = headlineOf(verdict);
  const left = [
    ...(verdict.health?.some(({ serious }) => serious) ? ["faults"] : []),
    ...(verdict.advice.cautions.length > 0 ? ["cautions"] : []),
  ];
  const more = left.length > 0 ? `; ${left.join(", ")}: run without --brief` : "";
  return [
    cells.map((cell) => briefCell(cell, verdict)).join("; "),
    `${toDo}${more}`,
    salinity.split(". ")[0]!.replace(/\.?$/, "."),
  ];
}

function briefCell({ cell, clean }: CellHeadline, verdict: Verdict): string {
  const { cause, probability } = verdict.cells[cell]!.causes[0]!;
  // Whole percents below 100 keep two long names within the line.
  const percent = Math.min(99, Math.round(100 * probability));
  return `${cell}: ${clean}, ${cause} ${percent} %`;
}

function colour(clean: CellHeadline["clean"], cause: string, paint: Paint): string {
  const words = `${clean} (${cause})`;
  if (clean === "open") return paint.warn(words);
  return clean === "clean" ? paint.good(words) : paint.bad(words);
}
