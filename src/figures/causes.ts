// Probability of each cause, for each cell, on one cast.
import type { CauseName } from "../causes/index.js";
import { percent } from "../words/percent.js";
import { bottomAxis, type Frame } from "./axes.js";
import { castNamed } from "./castNamed.js";
import type { FigureData } from "./figureData.js";
import { cellHeading } from "./marks.js";
import { scaleOver } from "./scales.js";
import { drawing, element, hint, label, paint, rule } from "./svg.js";

/** Less probable causes are shown together. */
const leastShown = 0.01;
const rowHeight = 26;
const margin = { left: 132, right: 74, top: 34, foot: 40 };

/**
 * Probabilities of the causes on one cast, one bar each.
 * @param width px; from about 320
 * @returns SVG text
 * @throws RangeError if there is no such cast
 */
export function causes(data: FigureData, cast: string, width = 720): string {
  const { verdict } = castNamed(data, cast);
  const shown = data.cells.flatMap((cell) => {
    const found = verdict.cells[cell];
    return found === undefined ? [] : [{ cell, rows: rowsOf(found.causes) }];
  });
  let top = margin.top;
  const parts: string[] = [];
  for (const { cell, rows } of shown) {
    const frame: Frame = {
      left: margin.left,
      right: width - margin.right,
      top,
      bottom: top + rows.length * rowHeight + 6,
    };
    const x = scaleOver([0, 1], [frame.left, frame.right]);
    parts.push(
      cellHeading(cell, 8, top - 12),
      bottomAxis(
        frame,
        [0, 0.25, 0.5, 0.75, 1].map((at) => ({ at: x(at), words: `${100 * at} %` })),
        "",
      ),
      ...rows.map(({ words, probability }, i) => {
        const y = top + 6 + i * rowHeight;
        return element(
          "g",
          {},
          hint(`${words}: ${percent(probability)}`),
          label(words, margin.left - 8, y + 13, { "text-anchor": "end" }),
          element("rect", {
            x: frame.left,
            y,
            width: Math.max(1, x(probability) - frame.left),
            height: rowHeight - 9,
            // The leading cause is filled and the others are outlined, so that it is visible in grey too.
            ...paint(i === 0 ? { fill: cell, stroke: cell } : { fill: "raised", stroke: cell }),
          }),
          label(
            percent(probability),
            x(probability) + 8,
            y + 13,
            i === 0 ? { "font-weight": 600 } : {},
          ),
        );
      }),
      rule([frame.left, frame.top], [frame.left, frame.bottom], "quiet"),
    );
    top = frame.bottom + margin.foot + 22;
  }
  const spoken = shown.map(
    ({ cell, rows }) =>
      `${cell} cell: ${rows.map((row) => `${row.words} ${percent(row.probability)}`).join(", ")}.`,
  );
  return drawing(
    { width, height: top - 34 },
    `Probabilities of the causes on cast ${cast}`,
    spoken.join(" "),
    parts.join(""),
  );
}

function rowsOf(
  all: readonly { readonly cause: CauseName; readonly probability: number }[],
): readonly { readonly words: string; readonly probability: number }[] {
  const shown = all.filter(({ probability }, i) => i === 0 || probability >= leastShown);
  const rest = all.slice(shown.length).reduce((sum, { probability }) => sum + probability, 0);
  return [
    ...shown.map(({ cause, probability }) => ({ words: cause, probability })),
    ...(rest > 0 ? [{ words: "all others", probability: rest }] : []),
  ];
}
