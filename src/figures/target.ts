// The target in figures: a tinted band with dotted edges.
import type { Frame } from "./axes.js";
import type { KeyEntry } from "./key.js";
import type { Point } from "./marks.js";
import type { Scale } from "./scales.js";
import { element, paint, rule } from "./svg.js";

/** Across a panel with gains on the vertical axis. */
export function targetAcross({ left, right }: Frame, y: Scale, target_ppm: number): string {
  const [top, bottom] = [y(target_ppm), y(-target_ppm)];
  const edges = [top, bottom].map((at): [Point, Point] => [
    [left, at],
    [right, at],
  ]);
  return tinted([left, top], [right, bottom], edges);
}

/** Down a panel with gains on the horizontal axis. */
export function targetDown({ top, bottom }: Frame, x: Scale, target_ppm: number): string {
  const [left, right] = [x(-target_ppm), x(target_ppm)];
  const edges = [left, right].map((at): [Point, Point] => [
    [at, top],
    [at, bottom],
  ]);
  return tinted([left, top], [right, bottom], edges);
}

function tinted(
  [left, top]: Point,
  [right, bottom]: Point,
  edges: readonly (readonly [Point, Point])[],
): string {
  const [width, height] = [right - left, bottom - top];
  return [
    element("rect", { x: left, y: top, width, height, ...paint({ fill: "target" }) }),
    ...edges.map(([from, to]) => rule(from, to, "good", { "stroke-dasharray": "1 3" })),
  ].join("");
}

export const targetEntry: KeyEntry = {
  words: "within the target",
  sample: ([x, y]) =>
    element("rect", {
      x: x - 9,
      y: y - 5,
      width: 18,
      height: 10,
      ...paint({ fill: "target", stroke: "good" }),
      "stroke-dasharray": "1 3",
    }),
};
