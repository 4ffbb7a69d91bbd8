// The gain of one cell on one cast by each line of evidence alone.
import { group } from "d3-array";
import type { CellName } from "../cast/cast.js";
import { signed } from "../words/signed.js";
import type { CellLegs, FigureCast } from "./figureData.js";
import { manyMarks, manyWhiskers, mark, type Point, shapeOf, whisker } from "./marks.js";
import type { Scale } from "./scales.js";
import { rule } from "./svg.js";

interface Said {
  readonly line: string;
  readonly ppm: number;
  readonly sd: number;
  readonly n: number;
}

/**
 * Bottles observe the gain itself. Legs observe up minus down, and the pair one cell minus the other. These two are added to the
 * verdict's gain of the other leg or cell.
 */
function said(
  { verdict, pair, legs, deepWater_sd_ppm }: FigureCast,
  cell: CellName,
): readonly Said[] {
  const own = verdict.cells[cell];
  if (own === undefined) return [];
  const other = verdict.cells[cell === "primary" ? "secondary" : "primary"];
  const sign = cell === "primary" ? 1 : -1;
  const onUpLeg = pair.filter(({ leg }) => leg === "up");
  const difference = onUpLeg.reduce((sum, { ppm }) => sum + ppm, 0) / onUpLeg.length;
  return verdict.evidence.flatMap((summary): Said[] => {
    const { line, n, standardUncertainty: sd } = summary;
    if (line === "pair") {
      if (other === undefined || onUpLeg.length === 0) return [];
      return [{ line, n, sd, ppm: other.gainError.up.ppm + sign * difference }];
    }
    if (summary.cell !== cell) return [];
    if (line === "legs") {
      const parted = legs[cell] === undefined ? undefined : partedBy(legs[cell]);
      return parted === undefined ? [] : [{ ...parted, ppm: own.gainError.down.ppm + parted.ppm }];
    }
    // The line's own uncertainty is that of the readings; in addition the water differs from station to station.
    const all = line === "deep-water" ? Math.hypot(sd, deepWater_sd_ppm) : sd;
    return [{ line, n, sd: all, ppm: summary.ppm }];
  });
}

/** Difference of the legs; for a change within the cast, that in the water above it. */
function partedBy({ differences, onset }: CellLegs): Said | undefined {
  const parted = differences.filter(
    ({ pressure_dbar }) => onset === undefined || pressure_dbar < onset.pressure_dbar,
  );
  const used = parted.length > 0 ? parted : differences;
  if (used.length === 0) return undefined;
  const weights = used.map(({ sd_ppm = Number.POSITIVE_INFINITY }) => 1 / sd_ppm ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const ppm = used.reduce((sum, one, i) => sum + weights[i]! * one.ppm, 0) / total;
  return { line: "legs", n: used.length, sd: 1 / Math.sqrt(total), ppm };
}

export function evidenceValues(cast: FigureCast, cell: CellName): readonly number[] {
  return said(cast, cell).map(({ ppm }) => ppm);
}

const dots = { "stroke-dasharray": "1 2" };
/** A bar longer than this share of the panel is dotted and cut; half of its length then, px (judgement). */
const longest = 0.75;
const stub = 14;
/** With more casts than this the marks are small, and have no hints. */
const mostCasts = 60;

/** Marks of all casts in the shape of their line; filled if the line observes the gain itself. */
export function evidenceMarks(
  casts: readonly FigureCast[],
  cell: CellName,
  across: (at: number) => number,
  y: Scale,
): string {
  const marks = casts.flatMap((cast, at) =>
    said(cast, cell).map((one) => ({ ...one, cast: cast.id, x: across(at) })),
  );
  const look = (line: string) =>
    ({ shape: shapeOf(line), colour: cell, hollow: line !== "bottles", area: 34 }) as const;
  const bar = ({ x, ppm, sd }: (typeof marks)[number]): readonly [Point, Point] => [
    [x, y(ppm - 2 * sd)],
    [x, y(ppm + 2 * sd)],
  ];
  const [bottom, top] = y.range() as [number, number];
  /** Bars across the panel would look like lines of the grid. */
  const crosses = (one: (typeof marks)[number]) => {
    const [[, from], [, to]] = bar(one);
    return Math.abs(from - to) > longest * (bottom - top);
  };
  if (casts.length > mostCasts) {
    return [
      manyWhiskers(marks.filter((one) => !crosses(one)).map(bar), cell),
      ...[...group(marks, ({ line }) => line)].map(([line, of]) =>
        manyMarks(
          of.map(({ x, ppm }): Point => [x, y(ppm)]),
          look(line),
        ),
      ),
    ].join("");
  }
  return marks
    .map((one) => {
      const { line, ppm, sd, n, cast, x } = one;
      const words = `cast ${cast}, ${line} (${n}): ${signed(ppm)} \u00b1 ${sd.toFixed(0)} ppm`;
      const drawn = crosses(one)
        ? rule([x, Math.max(top, y(ppm) - stub)], [x, Math.min(bottom, y(ppm) + stub)], cell, dots)
        : whisker(...bar(one), cell);
      return `${drawn}${mark([x, y(ppm)], look(line), words)}`;
    })
    .join("");
}
