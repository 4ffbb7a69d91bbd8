// Differences of the cell from the bottles, by pressure and by cast, with the excluded bottles.
import type { CellName } from "../cast/cast.js";
import { signed } from "../words/signed.js";
import { bottomAxis, type Frame, leftAxis } from "./axes.js";
import type { BottleResidual, FigureData } from "./figureData.js";
import { type KeyEntry, key } from "./key.js";
import { type Look, manyMarks, mark, mostHinted, type Point } from "./marks.js";
import { extentOf, roundTicks, scaleOver, thinned } from "./scales.js";
import { drawing, label, rule } from "./svg.js";
import { targetAcross, targetDown, targetEntry } from "./target.js";

interface ShownResidual extends BottleResidual {
  readonly cast: string;
  /** Index in the order of casts. */
  readonly at: number;
}

const heights = { byPressure: 300, byCast: 180 };
const margin = { left: 50, right: 14, top: 44, between: 84, foot: 46 };
const shapeOfCell = { primary: "circle", secondary: "square" } as const;

/**
 * Bottle residuals of all casts: CTD minus laboratory, in ppm of conductivity, against pressure and against cast.
 * @param width px; from about 320
 * @returns SVG text
 */
export function residuals(data: FigureData, width = 720): string {
  const shown = data.casts.flatMap(({ id, bottles }, at) =>
    bottles.map((bottle): ShownResidual => ({ ...bottle, cast: id, at })),
  );
  const [left, right] = [margin.left, width - margin.right];
  const byPressure: Frame = {
    left,
    right,
    top: margin.top,
    bottom: margin.top + heights.byPressure,
  };
  const top = byPressure.bottom + margin.between;
  const byCast: Frame = { left, right, top, bottom: top + heights.byCast };
  const domain = domainOf(shown, data.target_ppm);
  const keyed = key(keyEntries(data, shown), left, byCast.bottom + margin.foot, width - 60);
  const out = shown.filter(({ leftOut }) => leftOut !== undefined);
  return drawing(
    { width, height: byCast.bottom + margin.foot + keyed.height + 10 },
    `Conductivity of the cell against ${shown.length} bottle readings of ${data.cruise.name}`,
    `${shown.length - out.length} were used, ${out.length} were left out. ` +
      "Above against pressure, below against the cast.",
    [
      againstPressure(data, shown, domain, byPressure),
      againstCast(data, shown, domain, byCast),
      keyed.content,
    ].join(""),
  );
}

/** The range follows the used bottles; excluded ones outside it are drawn at the edge. */
function domainOf(shown: readonly ShownResidual[], target_ppm: number): readonly [number, number] {
  const used = shown.filter(({ leftOut }) => leftOut === undefined).map(({ ppm }) => ppm);
  return extentOf([1.3 * target_ppm, -1.3 * target_ppm, ...used]);
}

function againstPressure(
  data: FigureData,
  shown: readonly ShownResidual[],
  domain: readonly [number, number],
  frame: Frame,
): string {
  const x = scaleOver(domain, [frame.left, frame.right]);
  const deepest = Math.max(10, ...shown.map(({ pressure_dbar }) => pressure_dbar));
  const y = scaleOver([0, 1.03 * deepest], [frame.top, frame.bottom]);
  return [
    targetDown(frame, x, data.target_ppm),
    leftAxis(frame, roundTicks(y, 44), "pressure, dbar"),
    bottomAxis(frame, roundTicks(x, 70), "cell minus bottle, ppm of conductivity"),
    rule([x(0), frame.top], [x(0), frame.bottom], "quiet"),
    bottleMarks(shown, (one) => [x(one.ppm), y(one.pressure_dbar)], domain),
    label("against pressure", frame.left, frame.top - 26, { "font-weight": 600, "font-size": 13 }),
  ].join("");
}

function againstCast(
  data: FigureData,
  shown: readonly ShownResidual[],
  domain: readonly [number, number],
  frame: Frame,
): string {
  const y = scaleOver(domain, [frame.bottom, frame.top]);
  const x = scaleOver([0, Math.max(1, data.casts.length)], [frame.left, frame.right]);
  const ticks = data.casts.map(({ id }, at) => ({ at: x(at + 0.5), words: id.slice(0, 8) }));
  const shift: Readonly<Record<CellName, number>> =
    data.cells.length > 1 ? { primary: 0.36, secondary: 0.64 } : { primary: 0.5, secondary: 0.5 };
  return [
    targetAcross(frame, y, data.target_ppm),
    leftAxis(frame, roundTicks(y, 38), "cell minus bottle, ppm"),
    rule([frame.left, y(0)], [frame.right, y(0)], "quiet"),
    bottomAxis(frame, thinned(ticks), "cast", false),
    bottleMarks(shown, (one) => [x(one.at + shift[one.cell]), y(one.ppm)], domain),
    label("cast by cast", frame.left, frame.top - 26, { "font-weight": 600, "font-size": 13 }),
  ].join("");
}

/** Excluded bottles keep their hints for any number of bottles. */
function bottleMarks(
  shown: readonly ShownResidual[],
  placeOf: (one: ShownResidual) => Point,
  domain: readonly [number, number],
): string {
  const alone = shown.filter(({ leftOut }) => leftOut !== undefined || shown.length <= mostHinted);
  const kinds = shown.length <= mostHinted ? [] : (["primary", "secondary"] as const);
  return [
    ...kinds.map((cell) =>
      manyMarks(
        shown.filter((one) => one.cell === cell && one.leftOut === undefined).map(placeOf),
        lookOf(cell),
      ),
    ),
    ...alone.map((one) => bottleMark(one, placeOf(one), beyond(one.ppm, domain))),
  ].join("");
}

function lookOf(cell: CellName): Look {
  return { shape: shapeOfCell[cell], colour: cell, area: 24, hollow: cell === "secondary" };
}

function beyond(ppm: number, [low, high]: readonly [number, number]): boolean {
  return ppm < low || ppm > high;
}

function bottleMark(one: ShownResidual, at: Point, outside: boolean): string {
  const value = `${signed(one.ppm)} ppm${outside ? ", off the figure" : ""}`;
  const words = `cast ${one.cast}, bottle ${one.bottle} at ${one.pressure_dbar.toFixed(0)} dbar, ${one.cell} cell: ${value}`;
  const look: Look =
    one.leftOut === undefined ? lookOf(one.cell) : { shape: "times", colour: "alarm", area: 44 };
  return mark(at, look, one.leftOut === undefined ? words : `${words}; left out: ${one.leftOut}`);
}

function keyEntries({ cells }: FigureData, shown: readonly ShownResidual[]): readonly KeyEntry[] {
  const out = shown.some(({ leftOut }) => leftOut !== undefined);
  return [
    ...cells.map((cell) => ({
      words: `${cell} cell`,
      look: { shape: shapeOfCell[cell], colour: cell, hollow: cell === "secondary" } as const,
    })),
    ...(out
      ? [
          {
            words: "left out; at the edge where off the figure",
            look: { shape: "times", colour: "alarm", area: 44 } as const,
          },
        ]
      : []),
    targetEntry,
  ];
}
