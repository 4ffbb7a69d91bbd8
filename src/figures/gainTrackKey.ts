// The key of the gain track.

import type { FigureData } from "./figureData.js";
import type { KeyEntry } from "./key.js";
import { band, type Point, shapeOf } from "./marks.js";
import { targetEntry } from "./target.js";

/** The mark of the next station, different from those of the lines of evidence. */
export const nextStation = "star";

/** Meaning of the mark of each line, in the words of the key. */
const wordsOf: Readonly<Record<string, string>> = {
  bottles: "bottles of a cast",
  pair: "pair, from the other cell",
  legs: "legs, from the down leg",
  "deep-water": "deep water, with its variability",
};

export function trackKey({ cells, casts }: FigureData): readonly KeyEntry[] {
  const lines = new Set(casts.flatMap(({ verdict }) => verdict.evidence.map(({ line }) => line)));
  const [cell] = cells;
  const look = { colour: cell ?? "primary", area: 40 } as const;
  return [
    ...Object.entries(wordsOf).flatMap(([line, words]) =>
      lines.has(line)
        ? [{ words, look: { ...look, shape: shapeOf(line), hollow: line !== "bottles" } }]
        : [],
    ),
    {
      words: "next station, without cleaning",
      look: { ...look, shape: nextStation, hollow: true },
    },
    {
      words: "95 % band",
      sample: ([x, y]: Point) =>
        band(
          [
            [x - 9, y - 5, y + 5],
            [x + 9, y - 5, y + 5],
          ],
          look.colour,
        ),
    },
    targetEntry,
  ];
}
