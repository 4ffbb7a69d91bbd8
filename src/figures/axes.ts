// Axes and grids of figures.
import type { Tick } from "./scales.js";
import { label, rule } from "./svg.js";

/** The part of a figure in which data are drawn, px. */
export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Values up the left side, a hairline across for each. */
export function leftAxis(frame: Frame, ticks: readonly Tick[], caption: string): string {
  const { left, right, top } = frame;
  return [
    ...ticks.map(({ at }) => rule([left, at], [right, at], "faint")),
    ...ticks.map(({ at, words }) =>
      label(words, left - 6, at + 4, { "text-anchor": "end" }, "quiet"),
    ),
    caption === ""
      ? ""
      : label(caption, left - 6, top - 8, { "text-anchor": "start", dx: 6 - left + 4 }, "quiet"),
  ].join("");
}

/** Values up the right side. */
export function rightAxis(frame: Frame, ticks: readonly Tick[], caption: string): string {
  const { right, top } = frame;
  return [
    ...ticks.map(({ at, words }) => label(words, right + 6, at + 4, {}, "quiet")),
    label(caption, right + 52, top - 8, { "text-anchor": "end" }, "quiet"),
  ].join("");
}

/** Values along the foot; hairlines up where `grid`. */
export function bottomAxis(
  frame: Frame,
  ticks: readonly Tick[],
  caption: string,
  grid = true,
): string {
  const { left, right, top, bottom } = frame;
  return [
    ...(grid ? ticks.map(({ at }) => rule([at, top], [at, bottom], "faint")) : []),
    rule([left, bottom], [right, bottom], "quiet"),
    ...ticks.map(({ at, words }) =>
      label(words, at, bottom + 16, { "text-anchor": "middle" }, "quiet"),
    ),
    caption === ""
      ? ""
      : label(caption, (left + right) / 2, bottom + 33, { "text-anchor": "middle" }, "quiet"),
  ].join("");
}
