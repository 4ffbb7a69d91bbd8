// Scales of figures, and the values along them.
import { type ScaleLinear, scaleLinear } from "d3-scale";
import { letter_px } from "./svg.js";

export interface Tick {
  readonly at: number;
  readonly words: string;
}

export type Scale = ScaleLinear<number, number>;

/** A scale that limits values to the frame, so that nothing is drawn outside it. */
export function scaleOver(
  domain: readonly [number, number],
  range: readonly [number, number],
): Scale {
  return scaleLinear().domain(domain).range(range).clamp(true);
}

/** The least and the greatest of finite values, with a margin on either side; never of zero width. */
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
  const fitting = Math.max(2, Math.floor(Math.abs(to! - from!) / spacing));
  // One value alone does not make an axis.
  const count =
    [fitting, fitting + 1, fitting + 2].find((n) => scale.ticks(n).length > 1) ?? fitting;
  const format = scale.tickFormat(count);
  return scale.ticks(count).map((value) => ({ at: scale(value), words: format(value) }));
}

/** Labels reduced so that none overlaps the next. */
export function thinned(ticks: readonly Tick[], gap = 8): readonly Tick[] {
  let free = Number.NEGATIVE_INFINITY;
  return ticks.filter(({ at, words }) => {
    const half = (letter_px * words.length) / 2;
    if (at - half < free) return false;
    free = at + half + gap;
    return true;
  });
}
