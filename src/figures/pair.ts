// One cell minus the other through the cruise.
import type { LegName } from "../cast/cast.js";
import { signed } from "../words/signed.js";
import { bottomAxis, type Frame, leftAxis } from "./axes.js";
import type { FigureData, PairValue } from "./figureData.js";
import { key } from "./key.js";
import { manyMarks, mark, mostHinted, type Point, polyline } from "./marks.js";
import { extentOf, roundTicks, type Scale, scaleOver, thinned } from "./scales.js";
import { drawing, rule } from "./svg.js";

const panelHeight = 200;
const margin = { left: 50, right: 14, top: 30, foot: 46 };

/**
 * Primary minus secondary in the same water, for each leg, against the cast, with the verdicts' value.
 * @param width px; from about 320
 * @returns SVG text; "" without a pair
 */
export function pair(data: FigureData, width = 720): string {
  const { casts } = data;
  const values = casts.flatMap(({ id, pair: found }, at) =>
    found.map((one) => ({ ...one, id, at })),
  );
  if (values.length === 0) return "";
  const frame: Frame = {
    left: margin.left,
    right: width - margin.right,
    top: margin.top,
    bottom: margin.top + panelHeight,
  };
  const held = casts.flatMap(({ verdict: { cells } }, at) => {
    const { primary, secondary } = cells;
    if (primary === undefined || secondary === undefined) return [];
    return [{ at, ppm: primary.gainError.up.ppm - secondary.gainError.up.ppm }];
  });
  const x = scaleOver([0, casts.length], [frame.left, frame.right]);
  const y = scaleOver(extentOf([0, ...values.map(({ ppm }) => ppm)], 0.08, 5), [
    frame.bottom,
    frame.top,
  ]);
  const ticks = casts.map(({ id }, at) => ({ at: x(at + 0.5), words: id.slice(0, 8) }));
  const legs = [...new Set(values.map(({ leg }) => leg))];
  const keyed = key(
    [
      ...legs.map((leg) => ({
        words: `${leg} leg`,
        look: { shape: "diamond", colour: "ink", hollow: leg === "down" } as const,
      })),
      {
        words: "by the verdicts",
        sample: ([at, level]: Point) =>
          polyline(
            [
              [at - 9, level],
              [at + 9, level],
            ],
            "quiet",
          ),
      },
    ],
    margin.left,
    frame.bottom + margin.foot,
    width - 60,
  );
  return drawing(
    { width, height: frame.bottom + margin.foot + keyed.height + 10 },
    `The primary cell against the secondary cell through ${data.cruise.name}`,
    `${values.length} readings on ${new Set(values.map(({ at }) => at)).size} casts, ` +
      `from ${Math.min(...values.map(({ ppm }) => ppm)).toFixed(0)} to ${Math.max(...values.map(({ ppm }) => ppm)).toFixed(0)} ppm.`,
    [
      leftAxis(frame, roundTicks(y, 38), "primary minus secondary, ppm of conductivity"),
      bottomAxis(frame, thinned(ticks), "cast", false),
      rule([frame.left, y(0)], [frame.right, y(0)], "quiet"),
      polyline(
        held.map(({ at, ppm }): Point => [x(at + 0.68), y(ppm)]),
        "quiet",
      ),
      pairMarks(values, (at, leg) => x(at + (leg === "down" ? 0.32 : 0.68)), y),
      keyed.content,
    ].join(""),
  );
}

interface ShownPair extends PairValue {
  readonly id: string;
  readonly at: number;
}

function pairMarks(
  values: readonly ShownPair[],
  across: (at: number, leg: LegName) => number,
  y: Scale,
): string {
  const look = (leg: LegName) =>
    ({ shape: "diamond", colour: "ink", hollow: leg === "down", area: 24 }) as const;
  if (values.length > mostHinted) {
    return (["down", "up"] as const)
      .map((leg) => {
        const of = values.filter((one) => one.leg === leg);
        return manyMarks(
          of.map(({ at, ppm }): Point => [across(at, leg), y(ppm)]),
          look(leg),
        );
      })
      .join("");
  }
  return values
    .map(({ at, id, leg, ppm, pressure_dbar }) =>
      mark(
        [across(at, leg), y(ppm)],
        look(leg),
        `cast ${id}, ${leg} leg at ${pressure_dbar.toFixed(0)} dbar: ${signed(ppm)} ppm`,
      ),
    )
    .join("");
}
