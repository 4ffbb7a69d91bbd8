// Keys of figures: the meaning of each mark and line.
import { type Look, mark, type Point } from "./marks.js";
import { label, letter_px } from "./svg.js";

/** One entry of a key: a mark or a drawn sample, and its words. */
export interface KeyEntry {
  readonly words: string;
  readonly look?: Look;
  /** A sample drawn around a point, 18 px wide, if there is no mark. */
  readonly sample?: (at: Point) => string;
}

const lineHeight = 18;
/** A key in as many lines as the width requires. */
export function key(
  entries: readonly KeyEntry[],
  left: number,
  top: number,
  width: number,
): { readonly content: string; readonly height: number } {
  let [x, y] = [left, top + 12];
  const parts: string[] = [];
  for (const { words, look, sample } of entries) {
    const taken = 24 + letter_px * words.length + 14;
    if (x > left && x + taken > left + width) {
      x = left;
      y += lineHeight;
    }
    const at: Point = [x + 9, y - 4];
    parts.push(look === undefined ? (sample?.(at) ?? "") : mark(at, look));
    parts.push(label(words, x + 24, y, {}, "quiet"));
    x += taken;
  }
  return { content: parts.join(""), height: entries.length === 0 ? 0 : y - top + 6 };
}
