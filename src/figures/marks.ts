// Marks, lines and bands from positions on the page.
import {
  area,
  curveLinear,
  line,
  type SymbolType,
  symbol,
  symbolCircle,
  symbolDiamond,
  symbolSquare,
  symbolStar,
  symbolTimes,
  symbolTriangle,
} from "d3-shape";
import type { CellName } from "../cast/cast.js";
import type { Colour } from "./palette.js";
import { type Attributes, element, hint, label, paint, rule, short } from "./svg.js";

export type Point = readonly [x: number, y: number];
type Shape = "circle" | "square" | "diamond" | "triangle" | "times" | "star";

const shapes: Readonly<Record<Shape, SymbolType>> = {
  circle: symbolCircle,
  square: symbolSquare,
  diamond: symbolDiamond,
  triangle: symbolTriangle,
  times: symbolTimes,
  star: symbolStar,
};

/** The shape of a line of evidence; that of a reading in air for one without a shape of its own. */
export function shapeOf(line: string): Shape {
  return shapeByLine[line] ?? "times";
}

/** One shape for each line of evidence, so that they differ without colour. */
const shapeByLine: Readonly<Record<string, Shape>> = {
  bottles: "circle",
  pair: "diamond",
  legs: "triangle",
  "deep-water": "square",
  "air-zero": "times",
};

/** Solid for the primary cell, dashed for the secondary. */
export const dashOf: Readonly<Record<CellName, Attributes>> = {
  primary: {},
  secondary: { "stroke-dasharray": "6 3" },
};

export interface Look {
  readonly shape: Shape;
  readonly colour: Colour;
  /** Outline without filling. */
  readonly hollow?: boolean;
  /** Area in square px; 32 if absent. */
  readonly area?: number;
}

/** A mark, with its hint. */
export function mark([x, y]: Point, look: Look, said?: string): string {
  const { shape, colour, hollow = false, area: size = 32 } = look;
  const open = hollow || shape === "times";
  const d = symbol(shapes[shape], size).digits(1)() ?? "";
  return element(
    "path",
    {
      d,
      transform: `translate(${short(x)} ${short(y)})`,
      ...paint(open ? { fill: "ground", stroke: colour } : { fill: colour, stroke: "ground" }),
      "stroke-width": open ? 1.5 : 0.6,
    },
    said === undefined ? "" : hint(said),
  );
}

export function polyline(places: readonly Point[], colour: Colour, more: Attributes = {}): string {
  const d = line<Point>().curve(curveLinear).digits(1)([...places]) ?? "";
  return element("path", {
    d,
    ...paint({ stroke: colour }),
    "stroke-width": 1.6,
    "stroke-linejoin": "round",
    ...more,
  });
}

/** A band between a lower and an upper edge at each x. */
export function band(
  edges: readonly (readonly [x: number, low: number, high: number])[],
  colour: Colour,
): string {
  const d =
    area<readonly [number, number, number]>()
      .x(([x]) => x)
      .y0(([, low]) => low)
      .y1(([, , high]) => high)
      .digits(1)([...edges]) ?? "";
  return element("path", { d, ...paint({ fill: colour }), "fill-opacity": 0.2 });
}

/** A vertical or horizontal bar from one place to another, for an uncertainty. */
export function whisker(from: Point, to: Point, colour: Colour): string {
  return rule(from, to, colour, { "stroke-width": 1.2, "stroke-opacity": 0.7 });
}

/** Many such bars as one path. */
export function manyWhiskers(bars: readonly (readonly [Point, Point])[], colour: Colour): string {
  if (bars.length === 0) return "";
  return element("path", {
    d: bars
      .map(([[x1, y1], [x2, y2]]) => `M${short(x1)} ${short(y1)}L${short(x2)} ${short(y2)}`)
      .join(""),
    ...paint({ stroke: colour }),
    ...{ "stroke-width": 0.7, "stroke-opacity": 0.5 },
  });
}

/** More marks than this in a figure are drawn as one path for each kind, without hints: a mark then costs some 20 bytes. */
export const mostHinted = 500;

/** Outlines around a point, in px, for marks drawn together. */
const outlines: Readonly<Record<Shape, string>> = {
  circle: "m-1.7 0a1.7 1.7 0 1 0 3.4 0a1.7 1.7 0 1 0-3.4 0z",
  square: "m-1.5-1.5h3v3h-3z",
  diamond: "m0-2.4l1.5 2.4-1.5 2.4-1.5-2.4z",
  triangle: "m0-2l1.9 3.4h-3.8z",
  times: "m-2-2l4 4m0-4l-4 4",
  star: "m0-2.6l.8 1.8h1.8l-1.5 1.2.6 1.9-1.7-1.2-1.7 1.2.6-1.9-1.5-1.2h1.8z",
};

/** Many marks of one kind, small, as one path. */
export function manyMarks(
  places: readonly Point[],
  { shape, colour, hollow = false }: Look,
): string {
  if (places.length === 0) return "";
  const open = hollow || shape === "times";
  return element("path", {
    d: places.map(([x, y]) => `M${short(x)} ${short(y)}${outlines[shape]}`).join(""),
    ...paint(open ? { stroke: colour } : { fill: colour }),
    ...(open ? { "stroke-width": 0.8 } : { "fill-opacity": 0.8 }),
  });
}

/** The name of a cell above its panel, in the cell's colour. */
export function cellHeading(cell: CellName, x: number, y: number): string {
  return label(`${cell} cell`, x, y, { "font-weight": 600, "font-size": 13 }, cell);
}
