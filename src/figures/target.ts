// The target as figures show it: a tinted band with dotted edges.
import type { Frame, KeyEntry, Scale } from "./axes.js";
import { element, paint, rule } from "./svg.js";

/** Across a panel whose gains run up the side. */
export function targetAcross({ left, right }: Frame, y: Scale, target_ppm: number): string {
  const [top, bottom] = [y(target_ppm), y(-target_ppm)];
  return [
    element("rect", {
      x: left,
      y: top,
      width: right - left,
      height: bottom - top,
      ...paint({ fill: "target" }),
    }),
    ...[top, bottom].map((at) =>
      rule([left, at], [right, at], "good", { "stroke-dasharray": "1 3" }),
    ),
  ].join("");
}

/** Down a panel whose gains run along the foot. */
export function targetDown({ top, bottom }: Frame, x: Scale, target_ppm: number): string {
  const [left, right] = [x(-target_ppm), x(target_ppm)];
  return [
    element("rect", {
      x: left,
      y: top,
      width: right - left,
      height: bottom - top,
      ...paint({ fill: "target" }),
    }),
    ...[left, right].map((at) =>
      rule([at, top], [at, bottom], "good", { "stroke-dasharray": "1 3" }),
    ),
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
