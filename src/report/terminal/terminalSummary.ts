// The verdict as a person reads it in a terminal: one cast in full, then all casts in a table.
import type { CellName } from "../../cast/cast.js";
import type { InputFile } from "../../cast/inputFile.js";
import { gain, since } from "../../causes/sentences.js";
import type { CellVerdict, DataQuality, Verdict, VerdictDocument } from "../../verdict/verdict.js";
import { percent } from "../../words/percent.js";
import { plainLine, plainText } from "../../words/plainText.js";
import { sensorSentences } from "../../words/sensorSentences.js";
import { adviceRows, cleanedRows, type Row } from "./adviceRows.js";
import { castsTable } from "./castsTable.js";
import { type Paint, paintFor } from "./paint.js";
import { sparkline, usualSpan_ppm } from "./sparkline.js";
import { wrap } from "./wrap.js";

const labelWidth = 16;
const indent = " ".repeat(labelWidth);
/** Left-out bottles, notes and steps beyond this many are counted, not listed. */
const mostListed = 8;
/** Casts drawn as bars. */
const mostBars = 30;

/** How it is shown. */
export interface SummaryStyle {
  /** Escape codes for colour and weight, for a terminal that shows them. */
  readonly colour: boolean;
  /** Columns of the terminal. */
  readonly width: number;
  /** The cast to show in full; the latest where absent. */
  readonly cast?: string;
}

export const dataWords: Readonly<Record<DataQuality, string>> = {
  sound: "sound: usable as it is",
  "usable-after-correction": "usable after the gain error is taken out",
  questionable: "questionable: the gain error is not known well enough to correct to the target",
  bad: "bad: beyond what a correction can mend",
};

/**
 * A verdict document as text.
 * @throws RangeError where the named cast is not in the document
 */
export function terminalSummary(given: VerdictDocument, style: SummaryStyle): string {
  const document = plainText(given);
  const wanted = style.cast ?? given.latest;
  // Looked up as it is written, before its name is made fit to be shown.
  const verdict = document.casts[given.casts.findIndex(({ cast }) => cast === wanted)];
  if (verdict === undefined) {
    const ids = document.casts.map(({ cast }) => cast).join(", ");
    throw new RangeError(
      `no cast ${plainLine(wanted)} in ${document.cruise.name}; there are ${ids}`,
    );
  }
  const paint = paintFor(style.colour);
  const width = Math.max(50, Math.min(style.width, 110));
  const row = (label: string, text: string) =>
    `${paint.dim(label.padEnd(labelWidth))}${wrap(text, width - labelWidth, indent)}`;
  const sensors = sensorSentences(verdict);
  const sections = [
    heading(document, paint, width),
    [
      `${paint.strong(`Cast ${verdict.cast}`)}${verdict.start === undefined ? "" : `, ${verdict.start}`}`,
      ...cellRows(verdict, document, paint, row),
      ...cleanedRows(verdict.cleaned ?? [], row),
      ...sensors.response.map((sentence) => row("sensors", sentence)),
      ...listed(sensors.amiss).map((sentence) => row("amiss", sentence)),
      row("data", dataWords[verdict.data]),
    ].join("\n"),
    adviceRows(verdict.advice, paint, row, width).join("\n"),
    [
      ...verdict.wouldDecide.map((sentence) => row("would decide", sentence)),
      ...leftOutRows(verdict, row),
      ...listed(verdict.notes).map((note) => row("note", note)),
    ].join("\n"),
    castsTable(document, paint),
    inputRows(document.inputs, row).join("\n"),
  ];
  return `${sections.filter((section) => section !== "").join("\n\n")}\n`;
}

function heading({ cruise, casts }: VerdictDocument, paint: Paint, width: number): string {
  const line = `${casts.length} ${casts.length === 1 ? "cast" : "casts"}, target ${cruise.target} in salinity`;
  return [
    paint.strong(cruise.name),
    ...(cruise.note === undefined ? [] : [wrap(cruise.note, width, "")]),
    line,
  ].join("\n");
}

function cellRows(verdict: Verdict, document: VerdictDocument, paint: Paint, row: Row): string[] {
  return Object.entries(verdict.cells).flatMap(([name, cell]) => {
    const [leading] = cell.causes;
    if (leading === undefined) return [];
    const others = cell.causes.slice(1).filter(({ probability }) => probability >= 0.02);
    const { up } = cell.gainError;
    return [
      row(`${name as CellName} cell`, leadingWords(cell, document.cruise.target, paint)),
      row(
        "",
        `${gain(up)}, 95 % between ${up.interval95.map((edge) => edge.toFixed(0)).join(" and ")} ppm`,
      ),
      ...trackRow(document, verdict, name as CellName, row),
      ...(cell.change.kind === "none"
        ? []
        : [row("", `${since(cell.change)} (${percent(cell.change.probability)})`)]),
      row("why", leading.because),
      ...(others.length === 0
        ? []
        : [row("or", others.map((c) => `${c.cause} ${percent(c.probability)}`).join(", "))]),
      row("next station", forecastWords(cell)),
    ];
  });
}

/** The gain of this cell from cast to cast, up to the one shown, as bars: the lowest is the freshest reading. */
function trackRow({ casts }: VerdictDocument, shown: Verdict, name: CellName, row: Row): string[] {
  const gains = casts
    .slice(0, casts.indexOf(shown) + 1)
    .slice(-mostBars)
    .flatMap(({ cells }) => cells[name]?.gainError.up.ppm ?? []);
  if (gains.length < 2) return [];
  const [low, high] = [Math.min(...gains), Math.max(...gains)].map((ppm) => ppm.toFixed(0));
  return [
    row(
      "so far",
      `${sparkline(gains, usualSpan_ppm)} ${low} to ${high} ppm over ${gains.length} casts`,
    ),
  ];
}

function leadingWords(cell: CellVerdict, target: number, paint: Paint): string {
  const { cause, probability } = cell.causes[0]!;
  const words = `${cause}, ${percent(probability)}`;
  const painted = cause === "sound" ? paint.good(words) : paint.bad(words);
  const within = Math.abs(cell.salinityError.at35) <= target;
  return `${painted}${within ? "" : `, beyond the target of ${target}`}`;
}

function forecastWords({ forecast }: CellVerdict): string {
  const { hours, gainError, probabilityBeyondTarget } = forecast;
  const [low, high] = gainError.interval95.map((edge) => edge.toFixed(0));
  return (
    `in ${hours.toFixed(0)} h, left as it is, 95 % between ${low} and ${high} ppm; beyond the target with ` +
    `probability ${percent(probabilityBeyondTarget)}`
  );
}

function leftOutRows({ evidence }: Verdict, row: Row): string[] {
  const all = new Set(
    evidence.flatMap(({ line, leftOut }) =>
      leftOut.map(({ what, why }) => `${line}: ${what}: ${why}`),
    ),
  );
  return listed([...all]).map((text) => row("left out", text));
}

function inputRows(inputs: readonly InputFile[], row: Row): string[] {
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

function listed(texts: readonly string[]): readonly string[] {
  const rest = texts.length - mostListed;
  return rest > 0 ? [...texts.slice(0, mostListed), `and ${rest} more`] : texts;
}
