// Up leg minus down leg of a cast against pressure, and the onset of a difference.
import type { CellName } from "../cast/cast.js";
import { signed } from "../words/signed.js";
import { bottomAxis, type Frame, leftAxis } from "./axes.js";
import { castNamed } from "./castNamed.js";
import type { CellLegs, FigureData } from "./figureData.js";
import { type KeyEntry, key } from "./key.js";
import { cellHeading, mark, type Point, whisker } from "./marks.js";
import { extentOf, roundTicks, type Scale, scaleOver } from "./scales.js";
import { drawing, element, hint, label, rule } from "./svg.js";
import { targetDown, targetEntry } from "./target.js";

const panelHeight = 330;
const margin = { left: 50, right: 14, top: 44, between: 34, foot: 46 };
const onsetDash = { "stroke-width": 2, "stroke-dasharray": "5 3" };
const onsetEntry: KeyEntry = {
  words: "change begins",
  sample: ([x, y]) => rule([x - 9, y], [x + 9, y], "alarm", onsetDash),
};

/**
 * Up leg minus down leg in the same water, against pressure, one panel for each cell, with the place of a change within the
 * cast.
 * @param width px; from about 320
 * @returns SVG text; "" if the cast has no legs to compare
 * @throws RangeError if there is no such cast
 */
export function legs(data: FigureData, cast: string, width = 720): string {
  const found = castNamed(data, cast);
  const shown = data.cells.flatMap((cell) => {
    const of = found.legs[cell];
    return of === undefined || of.differences.length === 0 ? [] : [{ cell, of }];
  });
  if (shown.length === 0) return "";
  const each =
    (width - margin.left - margin.right - margin.between * (shown.length - 1)) / shown.length;
  const all = shown.flatMap(({ of }) => of.differences);
  const deepest = all.reduce((a, { pressure_dbar }) => Math.max(a, pressure_dbar), 10);
  const [top, bottom] = [margin.top, margin.top + panelHeight];
  const y = scaleOver([0, 1.04 * deepest], [top, bottom]);
  const domain = extentOf([
    data.target_ppm,
    -data.target_ppm,
    ...all.flatMap(({ ppm, sd_ppm = 0 }) => [ppm - sd_ppm, ppm + sd_ppm]),
  ]);
  const keyed = key(
    [
      {
        words: "layers, one standard deviation",
        look: { shape: "triangle", colour: "primary", area: 40 },
      },
      ...(shown.some(({ of }) => of.onset !== undefined) ? [onsetEntry] : []),
      targetEntry,
    ],
    margin.left,
    bottom + margin.foot,
    width - 60,
  );
  const panels = shown.map(({ cell, of }, i) => {
    const left = margin.left + i * (each + margin.between);
    return panel(
      cell,
      of,
      { left, right: left + each, top, bottom },
      y,
      domain,
      data.target_ppm,
      i === 0,
    );
  });
  return drawing(
    { width, height: bottom + margin.foot + keyed.height + 10 },
    `The legs of cast ${cast} against each other`,
    shown.map(({ cell, of }) => spoken(cell, of)).join(" "),
    `${panels.join("")}${keyed.content}`,
  );
}

function panel(
  cell: CellName,
  { differences, onset }: CellLegs,
  frame: Frame,
  y: Scale,
  domain: readonly [number, number],
  target_ppm: number,
  first: boolean,
): string {
  const x = scaleOver(domain, [frame.left, frame.right]);
  const ticks = roundTicks(y, 44).map((tick) => (first ? tick : { ...tick, words: "" }));
  return [
    targetDown(frame, x, target_ppm),
    leftAxis(frame, ticks, first ? "pressure, dbar" : ""),
    bottomAxis(frame, roundTicks(x, 64), "up minus down, ppm"),
    rule([x(0), frame.top], [x(0), frame.bottom], "quiet"),
    onset === undefined ? "" : onsetMark(onset, frame, y),
    ...differences.flatMap(({ ppm, sd_ppm = 0, pressure_dbar }) => {
      const at: Point = [x(ppm), y(pressure_dbar)];
      const said = `${pressure_dbar.toFixed(0)} dbar: ${signed(ppm)} \u00b1 ${sd_ppm.toFixed(0)} ppm`;
      return [
        whisker([x(ppm - sd_ppm), at[1]], [x(ppm + sd_ppm), at[1]], cell),
        mark(at, { shape: "triangle", colour: cell, hollow: cell === "secondary" }, said),
      ];
    }),
    cellHeading(cell, frame.left, frame.top - 26),
  ].join("");
}

function onsetMark(onset: NonNullable<CellLegs["onset"]>, frame: Frame, y: Scale): string {
  const { pressure_dbar, standardUncertainty_dbar: sd, probabilityDown } = onset;
  const leg = probabilityDown >= 0.5 ? "down" : "up";
  const sure = Math.max(probabilityDown, 1 - probabilityDown);
  const at = y(pressure_dbar);
  const place = `${pressure_dbar.toFixed(0)} dbar, ${leg}`;
  return element(
    "g",
    {},
    hint(
      `change at ${pressure_dbar.toFixed(0)} \u00b1 ${sd.toFixed(0)} dbar, on the ${leg} leg with probability ${sure.toFixed(2)}`,
    ),
    rule([frame.left, at], [frame.right, at], "alarm", onsetDash),
    label(place, frame.right - 4, at - 5, { "text-anchor": "end" }, "alarm"),
  );
}

function spoken(cell: CellName, { differences, onset }: CellLegs): string {
  const mean = differences.reduce((sum, { ppm }) => sum + ppm, 0) / differences.length;
  const began =
    onset === undefined
      ? "no step is placed"
      : `a step is placed at ${onset.pressure_dbar.toFixed(0)} dbar`;
  return `${cell} cell: ${differences.length} layers, up minus down ${mean.toFixed(0)} ppm on average; ${began}.`;
}
