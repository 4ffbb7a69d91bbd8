// Axes, grids and keys of figures.
import { type ScaleLinear, scaleLinear } from "d3-scale";
import { type Look, mark, type Place } from "./marks.js";
import { label, rule } from "./svg.js";

/** The part of a figure in which data are drawn, px. */
export interface Frame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

interface Tick {
  readonly at: number;
  readonly words: string;
}

export type Scale = ScaleLinear<number, number>;

/** A scale that holds what it is given within the frame, so that nothing is drawn outside it. */
export function scaleOver(
  domain: readonly [number, number],
  range: readonly [number, number],
): Scale {
  return scaleLinear().domain(domain).range(range).clamp(true);
}

/** The least and the greatest of finite values, with a margin on either side; never of no width. */
export function extentOf(
  values: readonly number[],
  margin = 0.06,
  least = 1e-6,
): readonly [number, number] {
  const finite = values.filter(Number.isFinite);
  if (finite.length === 0) return [0, 1];
  const low = finite.reduce((a, b) => Math.min(a, b));
  const high = finite.reduce((a, b) => Math.max(a, b));
  const pad = Math.max((high - low) * margin, least);
  return [low - pad, high + pad];
}

/** Round values on a scale, about one for every `spacing` px. */
export function roundTicks(scale: Scale, spacing: number): readonly Tick[] {
  const [from, to] = scale.range();
  const count = Math.max(2, Math.floor(Math.abs(to! - from!) / spacing));
  const format = scale.tickFormat(count);
  return scale.ticks(count).map((value) => ({ at: scale(value), words: format(value) }));
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

/** One in a key: a mark or a drawn sample, and its words. */
export interface KeyEntry {
  readonly words: string;
  readonly look?: Look;
  /** Drawn about a place, 18 px wide, where there is no mark. */
  readonly sample?: (at: Place) => string;
}

const lineHeight = 18;
/** Of an average letter at 12 px; a key need not fit to the pixel. */
const letter = 6.4;

/** A key in as many lines as the width asks for. */
export function key(
  entries: readonly KeyEntry[],
  left: number,
  top: number,
  width: number,
): { readonly content: string; readonly height: number } {
  let [x, y] = [left, top + 12];
  const parts: string[] = [];
  for (const { words, look, sample } of entries) {
    const taken = 24 + letter * words.length + 14;
    if (x > left && x + taken > left + width) {
      x = left;
      y += lineHeight;
    }
    const at: Place = [x + 9, y - 4];
    parts.push(look === undefined ? (sample?.(at) ?? "") : mark(at, look));
    parts.push(label(words, x + 24, y, {}, "quiet"));
    x += taken;
  }
  return { content: parts.join(""), height: entries.length === 0 ? 0 : y - top + 6 };
}

/** Labels thinned so that none runs into the next. */
export function thinned(ticks: readonly Tick[], gap = 8): readonly Tick[] {
  let free = Number.NEGATIVE_INFINITY;
  return ticks.filter(({ at, words }) => {
    const half = (letter * words.length) / 2;
    if (at - half < free) return false;
    free = at + half + gap;
    return true;
  });
}
