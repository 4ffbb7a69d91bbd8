// The verdict as text for a terminal. The answer is last, where a person looks when the command ends.
import type { VerdictDocument } from "../../verdict/verdict.js";
import { plainLine, plainText } from "../../words/plainText.js";
import { sensorSentences } from "../../words/sensorSentences.js";
import { start } from "../../words/words.js";
import { adviceRows, cleanedRows, contradictionRows } from "./adviceRows.js";
import { castsTable } from "./castsTable.js";
import { cellRows } from "./cellRows.js";
import { briefLines, headlineRows } from "./headlineRows.js";
import { inputRows, leftOutRows, listed } from "./leftOutRows.js";
import { type Paint, paintFor } from "./paint.js";
import { widest, wrap } from "./wrap.js";

const labelWidth = 16;
const indent = " ".repeat(labelWidth);
/** Number of casts in the table of the usual summary; the full one has every cast. */
const usualCasts = 10;

/** Options of the summary. */
export interface SummaryStyle {
  /** Escape codes for colour and weight, if the terminal supports them. */
  readonly colour: boolean;
  /** Columns of the terminal. No line is wider than 80. */
  readonly width: number;
  /** The cast to show; the latest if absent. */
  readonly cast?: string;
  /** "brief" is three lines; "full" adds alternatives, intervals, notes, excluded data, and every cast. */
  readonly detail?: "brief" | "usual" | "full";
}

/**
 * A verdict document as text.
 * @throws RangeError if the named cast is not in the document
 */
export function terminalSummary(given: VerdictDocument, style: SummaryStyle): string {
  const document = plainText(given);
  const wanted = style.cast ?? given.latest;
  // Looked up by the original name, before that is made safe for a terminal.
  const verdict = document.casts[given.casts.findIndex(({ cast }) => cast === wanted)];
  if (verdict === undefined) {
    const ids = document.casts.map(({ cast }) => cast).join(", ");
    throw new RangeError(
      `no cast ${plainLine(wanted)} in ${document.cruise.name}; there are ${ids}`,
    );
  }
  if (style.detail === "brief") return `${briefLines(verdict).join("\n")}\n`;
  const begun = start(verdict, document.cruise.timeZone);
  const full = style.detail === "full";
  const paint = paintFor(style.colour);
  const width = Math.max(50, Math.min(style.width, widest));
  const row = (label: string, text: string) =>
    `${paint.dim(label.padEnd(labelWidth))}${wrap(text, width - labelWidth, indent)}`;
  const sensors = sensorSentences(verdict);
  const notes = [
    ...leftOutRows(verdict, row),
    ...listed(verdict.notes).map((note) => row("note", note)),
  ];
  const sections = [
    heading(document, paint, width),
    [
      wrap(`${paint.strong(`Cast ${verdict.cast}`)}${begun === "" ? "" : `, ${begun}`}`, width, ""),
      ...cellRows(verdict, document, full, row),
      ...cleanedRows(verdict.cleaned ?? [], row),
      ...(full ? sensors.response.map((sentence) => row("sensors", sentence)) : []),
      ...listed(sensors.faults).map((sentence) => row("fault", sentence)),
      ...verdict.wouldDecide.map((sentence) => row("would decide", sentence)),
      ...(full || notes.length === 0
        ? notes
        : [row("notes", `${notes.length} on this cast: --full shows them`)]),
    ].join("\n"),
    ...(full ? [contradictionRows(verdict.advice, paint, row, width).join("\n")] : []),
    inputRows(document.inputs, row).join("\n"),
    castsTable(document, paint, width, full ? document.casts.length : usualCasts),
    adviceRows(verdict.advice, paint, row).join("\n"),
    headlineRows(verdict, document.cruise.target, paint, row).join("\n"),
  ];
  return `${sections.filter((section) => section !== "").join("\n\n")}\n`;
}

function heading({ cruise, casts }: VerdictDocument, paint: Paint, width: number): string {
  const line = `${casts.length} ${casts.length === 1 ? "cast" : "casts"}, target ${cruise.target} in salinity`;
  return [
    paint.strong(wrap(cruise.name, width, "")),
    ...(cruise.note === undefined ? [] : [wrap(cruise.note, width, "")]),
    line,
  ].join("\n");
}
