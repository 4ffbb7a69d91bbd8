// The cleaning decision: the expected loss of each intensity, and its probability to meet the target.
import { percent } from "../words/percent.js";
import { bottomAxis, type Frame } from "./axes.js";
import { castNamed } from "./castNamed.js";
import type { FigureData } from "./figureData.js";
import { key } from "./key.js";
import { mark } from "./marks.js";
import { roundTicks, scaleOver } from "./scales.js";
import { drawing, element, hint, label, paint } from "./svg.js";

const rowHeight = 34;
const margin = { left: 88, right: 18, top: 34, foot: 44 };
/** Share of the width for the bars of loss; the rest is for the probabilities. */
const shareOfLoss = 0.56;
const gap = 56;

/**
 * The six intensities on one cast: the expected loss as a bar, the hands-on minutes as a mark, and beside them the
 * probability of being within the target at the next station.
 * @param width px; from about 320
 * @returns SVG text
 * @throws RangeError if there is no such cast
 */
export function decision(data: FigureData, cast: string, width = 720): string {
  const { advice } = castNamed(data, cast).verdict;
  const { alternatives, intensity: chosen } = advice;
  const bottom = margin.top + alternatives.length * rowHeight;
  const inner = width - margin.left - margin.right - gap;
  const losses: Frame = {
    left: margin.left,
    right: margin.left + shareOfLoss * inner,
    top: margin.top,
    bottom,
  };
  const within: Frame = { ...losses, left: losses.right + gap, right: width - margin.right };
  const worst = Math.max(1, ...alternatives.map((one) => Math.max(one.expectedLoss, one.minutes)));
  const x = scaleOver([0, worst], [losses.left, losses.right]);
  const p = scaleOver([0, 1], [within.left, within.right]);
  const rows = alternatives.map(
    ({ intensity, minutes, expectedLoss, probabilityWithinTarget, whyNot }, i) => {
      const y = margin.top + i * rowHeight;
      const middle = y + rowHeight / 2;
      const taken = intensity === chosen;
      // The number follows its bar, or the diamond if that would cover it.
      const [end, diamond] = [x(expectedLoss) + 6, x(minutes)];
      const clear = diamond > end - 12 && diamond < end + 26 ? diamond + 9 : end;
      return element(
        "g",
        {},
        hint(
          `${intensity}: ${minutes.toFixed(0)} minutes, expected loss ${expectedLoss.toFixed(0)} minutes, within the target ` +
            `${percent(probabilityWithinTarget)}${whyNot === undefined ? "" : `; ${whyNot}`}`,
        ),
        taken
          ? element("rect", {
              x: 4,
              y: y + 2,
              width: width - 8,
              height: rowHeight - 4,
              rx: 4,
              ...paint({ fill: "target" }),
            })
          : "",
        label(intensity, margin.left - 10, middle + 4, {
          "text-anchor": "end",
          ...(taken ? { "font-weight": 700 } : {}),
        }),
        element("rect", {
          x: losses.left,
          y: middle - 8,
          width: Math.max(0.5, x(expectedLoss) - losses.left),
          height: 16,
          ...paint({ fill: taken ? "primary" : "raised", stroke: "primary" }),
        }),
        mark([x(minutes), middle], { shape: "diamond", colour: "secondary", area: 60 }),
        label(expectedLoss.toFixed(0), clear, middle + 4, taken ? { "font-weight": 700 } : {}),
        element("line", {
          x1: within.left,
          y1: middle,
          x2: p(probabilityWithinTarget),
          y2: middle,
          ...paint({ stroke: "good" }),
          "stroke-width": 1.5,
        }),
        mark([p(probabilityWithinTarget), middle], {
          shape: "circle",
          colour: "good",
          area: 60,
          hollow: !taken,
        }),
      );
    },
  );
  const keyed = key(
    [
      { words: "expected loss", sample: ([cx, cy]) => box(cx, cy) },
      {
        words: "hands-on minutes",
        look: { shape: "diamond", colour: "secondary", area: 60 },
      },
      {
        words: "within the target",
        look: { shape: "circle", colour: "good", area: 60, hollow: true },
      },
    ],
    12,
    bottom + margin.foot,
    width - 30,
  );
  const spoken = alternatives.map(
    (one) =>
      `${one.intensity}: ${one.minutes.toFixed(0)} minutes, loss ${one.expectedLoss.toFixed(0)}, within the target ${percent(one.probabilityWithinTarget)}.`,
  );
  return drawing(
    { width, height: bottom + margin.foot + keyed.height + 10 },
    `The cleaning decision after cast ${cast}: ${chosen}`,
    spoken.join(" "),
    [
      bottomAxis(
        losses,
        roundTicks(x, 60),
        width < 500 ? "loss, min" : "expected loss, minutes of ship's time",
      ),
      bottomAxis(
        within,
        (width < 500 ? [0, 1] : [0, 0.5, 1]).map((at) => ({ at: p(at), words: `${100 * at} %` })),
        width < 500 ? "within target" : "probability within the target",
      ),
      ...rows,
      label(`advised: ${chosen}`, 12, margin.top - 14, { "font-weight": 600, "font-size": 13 }),
      keyed.content,
    ].join(""),
  );
}

function box(x: number, y: number): string {
  return element("rect", {
    x: x - 9,
    y: y - 5,
    width: 18,
    height: 10,
    ...paint({ fill: "raised", stroke: "primary" }),
  });
}
