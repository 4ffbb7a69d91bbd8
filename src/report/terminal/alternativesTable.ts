// The six intensities side by side, so that a person sees how close the choice was.
import type { Alternative } from "../../cleaning/decision/advice.js";
import { percent } from "../../words/percent.js";
import type { Paint } from "./paint.js";
import { wrap } from "./wrap.js";

const head = ["", "min", "within", "loss", "why not"] as const;

/** @param width number of columns; the last column is wrapped to the rest */
export function alternativesTable(
  alternatives: readonly Alternative[],
  chosen: string,
  paint: Paint,
  width: number,
): readonly string[] {
  const body = alternatives.map(
    ({ intensity, minutes, probabilityWithinTarget, expectedLoss, whyNot }) => [
      intensity,
      minutes.toFixed(0),
      percent(probabilityWithinTarget),
      expectedLoss.toFixed(0),
      whyNot ?? "",
    ],
  );
  const widths = [0, 1, 2, 3].map((column) =>
    Math.max(head[column]!.length, ...body.map((line) => line[column]!.length)),
  );
  const before = widths.reduce((sum, one) => sum + one + 2, 0);
  const line = (cells: readonly string[]) =>
    [
      cells[0]!.padEnd(widths[0]!),
      ...[1, 2, 3].map((column) => cells[column]!.padStart(widths[column]!)),
      wrap(cells[4]!, Math.max(20, width - before), " ".repeat(before)),
    ]
      .join("  ")
      .trimEnd();
  const shown = body.flatMap((cells) => {
    const text = line(cells);
    return (cells[0] === chosen ? paint.strong(text) : text).split("\n");
  });
  return [paint.dim(line(head)), ...shown];
}
