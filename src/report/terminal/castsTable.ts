// All casts of a cruise, a line each.
import type { CellName } from "../../cast/cast.js";
import type { CellVerdict, Verdict, VerdictDocument } from "../../verdict/verdict.js";
import type { Paint } from "./paint.js";

/** A cruise this long or longer is cut to its last casts in a terminal. */
const mostCasts = 60;

export function castsTable({ casts }: VerdictDocument, paint: Paint): string {
  const shown = casts.slice(-mostCasts);
  const cells = [...new Set(shown.flatMap(({ cells }) => Object.keys(cells) as CellName[]))];
  const head = ["cast", ...cells.flatMap((cell) => [`${cell}, ppm`, "cause"]), "data", "refs"];
  const body = shown.map((verdict) => [
    verdict.cast,
    ...cells.flatMap((cell) => cellColumns(verdict.cells[cell])),
    verdict.data,
    references(verdict),
  ]);
  const widths = head.map((title, column) =>
    Math.max(title.length, ...body.map((line) => line[column]!.length)),
  );
  const align = (line: readonly string[]) =>
    line
      .map((text, column) => text.padEnd(widths[column]!))
      .join("  ")
      .trimEnd();
  const cut = casts.length - shown.length;
  return [
    ...(cut > 0 ? [paint.dim(`${cut} earlier casts are in the JSON`)] : []),
    paint.dim(align(head)),
    ...body.map((line, i) => colour(shown[i]!, align(line), paint)),
  ].join("\n");
}

function cellColumns(cell: CellVerdict | undefined): string[] {
  if (cell === undefined) return ["", ""];
  const { ppm, standardUncertainty } = cell.gainError.up;
  const [leading] = cell.causes;
  const number = `${ppm.toFixed(0).padStart(5)} ± ${standardUncertainty.toFixed(0).padStart(2)}`;
  const probability = leading === undefined ? "" : ` ${(100 * leading.probability).toFixed(0)} %`;
  return [number, `${leading?.cause ?? ""}${probability}`];
}

/** Bottles used, and left out after a minus. */
function references({ evidence }: Verdict): string {
  const bottles = evidence.find(({ line }) => line === "bottles");
  if (bottles === undefined) return "none";
  return `${bottles.n}${bottles.leftOut.length > 0 ? ` (-${bottles.leftOut.length})` : ""}`;
}

function colour(verdict: Verdict, line: string, paint: Paint): string {
  if (verdict.data === "bad" || verdict.data === "questionable") return paint.bad(line);
  return verdict.data === "sound" ? line : paint.warn(line);
}
