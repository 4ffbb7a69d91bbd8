// The key of the gain track.
import type { KeyEntry } from "./axes.js";
import type { FigureData } from "./figureData.js";
import { band, type Place } from "./marks.js";
import { targetEntry } from "./target.js";

export function trackKey({ cells, casts }: FigureData): readonly KeyEntry[] {
  const lines = new Set(casts.flatMap(({ verdict }) => verdict.evidence.map(({ line }) => line)));
  const [cell] = cells;
  const look = { colour: cell ?? "primary", area: 40 } as const;
  return [
    ...(lines.has("bottles")
      ? [{ words: "bottles of a cast", look: { ...look, shape: "circle" } as const }]
      : []),
    ...(lines.has("pair")
      ? [
          {
            words: "pair, from the other cell",
            look: { ...look, shape: "diamond", hollow: true } as const,
          },
        ]
      : []),
    ...(lines.has("legs")
      ? [
          {
            words: "legs, from the down leg",
            look: { ...look, shape: "triangle", hollow: true } as const,
          },
        ]
      : []),
    {
      words: "next station, left as it is",
      look: { ...look, shape: "square", hollow: true } as const,
    },
    {
      words: "95 % band",
      sample: ([x, y]: Place) =>
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
