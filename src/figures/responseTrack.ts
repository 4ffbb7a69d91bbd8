// Response of the cells through the cruise: alignment and thermal lag, cast by cast, both cells.
import type { CellName } from "../cast/cast.js";
import { bottomAxis, type Frame, leftAxis } from "./axes.js";
import type { FigureData } from "./figureData.js";
import { type KeyEntry, key } from "./key.js";
import { dashOf, type Look, mark, type Point, polyline, whisker } from "./marks.js";
import {
  type ResponseQuantity,
  type ResponseValue,
  responseQuantities,
} from "./responseQuantities.js";
import { extentOf, roundTicks, type Scale, scaleOver, thinned } from "./scales.js";
import { drawing, rule } from "./svg.js";

const panelHeight = 132;
const margin = { left: 50, right: 14, top: 30, between: 42, foot: 46 };
/** Bars with more than this many times the usual uncertainty are cut off at the edge, so that the others remain visible. */
const wide = 4;
/** Length of the bars in standard uncertainties, either way. */
const reach = 2;

/**
 * Alignment and thermal lag of the cells, cast by cast: one panel for each quantity. Casts without a value have no mark.
 * @param width px; from about 320
 * @returns SVG text; "" if no cast has a value
 */
export function responseTrack(data: FigureData, width = 720): string {
  const { casts, cells } = data;
  const panels = responseQuantities
    .map((quantity) => ({ quantity, values: valuesOf(data, quantity) }))
    .filter(({ values }) => values.length > 0);
  if (panels.length === 0) return "";
  const frames = panels.map((_, i): Frame => {
    const top = margin.top + i * (panelHeight + margin.between);
    return { left: margin.left, right: width - margin.right, top, bottom: top + panelHeight };
  });
  const foot = frames.at(-1)!;
  const x = scaleOver([0, casts.length], [margin.left, width - margin.right]);
  const ticks = casts.map(({ id }, at) => ({ at: x(at + 0.5), words: id.slice(0, 8) }));
  const all = panels.flatMap(({ values }) => values);
  const shown = cells.filter((cell) => all.some((value) => value.cell === cell));
  const keyed = key(keyOf(shown, all), margin.left, foot.bottom + margin.foot, width - 60);
  return drawing(
    { width, height: foot.bottom + margin.foot + keyed.height + 10 },
    `Response of the ${shown.join(" and the ")} cell through ${data.cruise.name}`,
    panels.map(({ quantity, values }) => spoken(quantity, values)).join(" "),
    [
      ...panels.map(({ quantity, values }, i) => panel(quantity, values, frames[i]!, x, shown)),
      bottomAxis(foot, thinned(ticks), "cast", false),
      keyed.content,
    ].join(""),
  );
}

function valuesOf(
  { casts, cells }: FigureData,
  { of }: ResponseQuantity,
): readonly ResponseValue[] {
  return casts.flatMap(({ id, verdict: { response = {} } }, at) =>
    cells.flatMap((cell): readonly ResponseValue[] => {
      const seen = response[cell];
      const found = seen && of(seen);
      return found === undefined ? [] : [{ at, id, cell, ...found }];
    }),
  );
}

function panel(
  { caption, said, reference, least }: ResponseQuantity,
  values: readonly ResponseValue[],
  frame: Frame,
  x: Scale,
  cells: readonly CellName[],
): string {
  const y = scaleOver(domainOf(values, reference, least), [frame.bottom, frame.top]);
  // The cells are drawn side by side, so that no bar hides another.
  const across = ({ at, cell }: ResponseValue) =>
    x(at + 0.5) + (cells.length === 1 ? 0 : cell === "primary" ? -apart(x) : apart(x));
  const differing = values.filter(({ differs }) => differs);
  return [
    leftAxis(frame, roundTicks(y, 32), caption),
    rule([frame.left, frame.bottom], [frame.right, frame.bottom], "quiet"),
    reference === undefined
      ? ""
      : rule([frame.left, y(reference)], [frame.right, y(reference)], "quiet"),
    ...cells.map((cell) =>
      polyline(
        values.filter((one) => one.cell === cell).map((one): Point => [across(one), y(one.value)]),
        cell,
        { ...dashOf[cell], "stroke-width": 1, "stroke-opacity": 0.55 },
      ),
    ),
    ...values.map((one) => {
      const bar = reach * one.standardUncertainty;
      return whisker(
        [across(one), y(one.value - bar)],
        [across(one), y(one.value + bar)],
        one.cell,
      );
    }),
    ...differing.map((one) => mark([across(one), y(one.value)], ring)),
    ...values.map((one) => {
      const beside =
        one.usual === undefined
          ? ""
          : `, ${said({ ...one, value: one.usual }).split(" ")[0]!} before`;
      const words = `cast ${one.id}, ${one.cell} cell: ${said(one)}${beside}${one.differs ? ": differs" : ""}`;
      return mark([across(one), y(one.value)], lookOf(one.cell), words);
    }),
  ].join("");
}

/** At most 5 px either way; less if casts are close together. */
function apart(x: Scale): number {
  return Math.min(5, 0.2 * (x(1) - x(0)));
}

function domainOf(
  values: readonly ResponseValue[],
  reference: number | undefined,
  least: number,
): readonly [number, number] {
  const sorted = values.map((one) => one.standardUncertainty).sort((a, b) => a - b);
  const usual = sorted[Math.floor(sorted.length / 2)]!;
  return extentOf(
    [
      ...(reference === undefined ? [] : [reference]),
      ...values.flatMap(({ value, standardUncertainty: u }) =>
        u > wide * usual ? [value] : [value - reach * u, value + reach * u],
      ),
    ],
    0.08,
    least,
  );
}

const ring: Look = { shape: "circle", colour: "alarm", hollow: true, area: 170 };

function lookOf(cell: CellName): Look {
  return cell === "primary"
    ? { shape: "circle", colour: cell, area: 34 }
    : { shape: "square", colour: cell, hollow: true, area: 34 };
}

function keyOf(cells: readonly CellName[], values: readonly ResponseValue[]): readonly KeyEntry[] {
  return [
    ...cells.map((cell) => ({ words: `${cell} cell`, look: lookOf(cell) })),
    ...(values.some(({ differs }) => differs)
      ? [{ words: "differs from the casts before", look: ring }]
      : []),
    {
      words: `${reach} standard uncertainties either way`,
      sample: ([at, level]: Point) => whisker([at, level - 6], [at, level + 6], "quiet"),
    },
  ];
}

function spoken({ caption, said }: ResponseQuantity, values: readonly ResponseValue[]): string {
  const last = values.at(-1)!;
  const differing = values.filter(({ differs }) => differs);
  const odd =
    differing.length === 0
      ? "None differs from the casts before it."
      : `Differing: ${differing.map(({ id, cell }) => `cast ${id}, ${cell}`).join("; ")}.`;
  return `${caption}: ${values.length} values, the last ${said(last)} of the ${last.cell} cell on cast ${last.id}. ${odd}`;
}
