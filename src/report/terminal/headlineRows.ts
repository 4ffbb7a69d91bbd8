// The answer as the last lines of a summary, and in three lines.
import type { CellName } from "../../cast/cast.js";
import { gainWords } from "../../causes/sentences.js";
import type { Verdict } from "../../verdict/verdict.js";
import { dataWords } from "../../words/dataWords.js";
import { type CellHeadline, headlineOf } from "../../words/headline.js";
import type { RowWriter } from "./adviceRows.js";
import type { Paint } from "./paint.js";
import { widest } from "./wrap.js";

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
    ...cells.map((one) =>
      row(
        `${one.cell} cell`,
        `${colour(one, paint)}: ${gainWords(verdict.cells[one.cell]!.gainError.up)}${beyond(one.cell)}`,
      ),
    ),
    ...cells.map(({ cell, data }) => row("data", `${cell} cell ${dataWords[data]}`)),
    row("salinity", salinity),
    row("do", `${paint.strong(toDo)}.${cautions}`),
  ];
}

/** Three lines: the cast with its cells, what to do, whose salinity to use. More if a line would exceed 80 columns. */
export function briefLines(verdict: Verdict): readonly string[] {
  const { cells, toDo, salinity } = headlineOf(verdict);
  const left = [
    ...(verdict.health?.some(({ serious }) => serious) ? ["faults"] : []),
    ...(verdict.advice.cautions.length > 0 ? ["cautions"] : []),
  ];
  const more = left.length > 0 ? `; ${left.join(", ")}: run without --brief` : "";
  const states = cells.map((cell) => briefCell(cell, verdict));
  const cast = `Cast ${verdict.cast}`;
  const together = `${cast}: ${states.join("; ")}`;
  return [
    ...(together.length <= widest ? [together] : [cast, ...states]),
    `${toDo}${more}`,
    salinity.split(". ")[0]!.replace(/\.?$/, "."),
  ];
}

function briefCell({ cell, state }: CellHeadline, verdict: Verdict): string {
  const { cause, probability } = verdict.cells[cell]!.causes[0]!;
  // Whole percents below 100 keep two long names within the line.
  const percent = Math.min(99, Math.round(100 * probability));
  return `${cell}: ${state}, ${cause} ${percent} %`;
}

function colour({ clean, state, cause }: CellHeadline, paint: Paint): string {
  const words = `${state} (${cause})`;
  if (state === "clean") return paint.good(words);
  return clean === "not clean" ? paint.bad(words) : paint.warn(words);
}
