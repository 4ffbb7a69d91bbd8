// Casts of a cruise, one line each.
import type { CellName } from "../../cast/cast.js";
import type { CellVerdict, DataQuality, Verdict, VerdictDocument } from "../../verdict/verdict.js";
import type { Paint } from "./paint.js";
import { wrap } from "./wrap.js";

/** Possible columns beside the gains; the first choice that fits the width is used. */
const layouts = [
  { probabilities: true, references: true },
  { probabilities: true, references: false },
  { probabilities: false, references: true },
  { probabilities: false, references: false },
] as const;
type TableLayout = (typeof layouts)[number];

const dataInShort: Readonly<Record<DataQuality, string>> = {
  sound: "sound",
  "usable-after-correction": "correctable",
  questionable: "questionable",
  bad: "bad",
};

/**
 * @param width of the terminal, columns
 * @param most  number of casts shown, the last ones
 */
export function castsTable(
  { casts }: VerdictDocument,
  paint: Paint,
  width: number,
  most: number,
): string {
  const shown = casts.slice(-most);
  const tables = layouts.map((layout) => aligned(shown, layout));
  const fits = (lines: readonly string[]) => lines.every((line) => line.length <= width);
  const [head, ...body] = (tables.find(fits) ?? tables.at(-1)!).map((line) =>
    line.length <= width ? line : `${line.slice(0, width - 1)}\u2026`,
  );
  const cut = casts.length - shown.length;
  return [
    ...(cut > 0
      ? [
          paint.dim(
            `${cut} earlier ${cut === 1 ? "cast" : "casts"}: --full shows ${cut === 1 ? "it" : "them"}`,
          ),
        ]
      : []),
    paint.dim(
      wrap("gain error of each cast, ppm of conductivity, ± its standard uncertainty", width, ""),
    ),
    paint.dim(head!),
    ...body.map((line, i) => colour(shown[i]!, line, paint)),
  ].join("\n");
}

function aligned(shown: readonly Verdict[], layout: TableLayout): readonly string[] {
  const cells = [...new Set(shown.flatMap(({ cells }) => Object.keys(cells) as CellName[]))];
  const refs = (text: string) => (layout.references ? [text] : []);
  const lines = [
    ["cast", ...cells.flatMap((cell) => [cell, "cause"]), "data", ...refs("refs")],
    ...shown.map((verdict) => [
      verdict.cast,
      ...cells.flatMap((cell) => cellColumns(verdict.cells[cell], layout)),
      dataInShort[verdict.data],
      ...refs(references(verdict)),
    ]),
  ];
  const widths = lines[0]!.map((_, column) =>
    Math.max(...lines.map((line) => line[column]!.length)),
  );
  return lines.map((line) =>
    line
      .map((text, column) => text.padEnd(widths[column]!))
      .join("  ")
      .trimEnd(),
  );
}

function cellColumns(cell: CellVerdict | undefined, { probabilities }: TableLayout): string[] {
  if (cell === undefined) return ["", ""];
  const { ppm, standardUncertainty } = cell.gainError.up;
  const [leading] = cell.causes;
  const number = `${ppm.toFixed(0).padStart(5)} ± ${standardUncertainty.toFixed(0).padStart(2)}`;
  const share = Math.min(99, Math.round(100 * (leading?.probability ?? 0)));
  const probability = leading === undefined || !probabilities ? "" : ` ${share} %`;
  return [number, `${leading?.cause ?? ""}${probability}`];
}

/** Number of bottles used, and excluded ones after a minus. */
function references({ evidence }: Verdict): string {
  const bottles = evidence.find(({ line }) => line === "bottles");
  if (bottles === undefined) return "none";
  return `${bottles.n}${bottles.leftOut.length > 0 ? ` (-${bottles.leftOut.length})` : ""}`;
}

function colour(verdict: Verdict, line: string, paint: Paint): string {
  if (verdict.data === "bad" || verdict.data === "questionable") return paint.bad(line);
  return verdict.data === "sound" ? line : paint.warn(line);
}
