// One cell over the years: its clean gain, cruise by cruise, its films, shifts and calibrations.
import type { CellRecord } from "../history/cellRecord.js";
import { gainForSalinity, salinityError } from "../model/salinityError.js";
import { signed } from "../words/signed.js";
import { bottomAxis, type Frame, leftAxis, rightAxis } from "./axes.js";
import { type KeyEntry, key } from "./key.js";
import { type Look, mark, type Point, polyline, whisker } from "./marks.js";
import { extentOf, roundTicks, type Scale, scaleOver, type Tick, thinned } from "./scales.js";
import { drawing, element, label, paint, rule } from "./svg.js";
import { targetAcross, targetEntry } from "./target.js";

const panelHeight = 240;
const margin = { left: 50, right: 58, top: 40, foot: 46 };
/** Length of the bars in standard uncertainties, either way. */
const reach = 2;
const day_ms = 86_400_000;

const cleanLook: Look = { shape: "circle", colour: "primary", area: 40 };
const filmLook: Look = { shape: "triangle", colour: "alarm", hollow: true, area: 50 };
const shiftLook: Look = { shape: "diamond", colour: "secondary", hollow: true, area: 50 };

/** A cruise with its times, ms. */
interface Dated {
  readonly record: CellRecord;
  readonly from: number;
  readonly to: number;
}

/**
 * Clean gain at the first and last cast of each cruise with two standard uncertainties, the largest reading of each film,
 * shifts, calibrations and the target, over time.
 * @param records of one cell; those without a time are excluded
 * @param width   px; from about 320
 * @returns SVG text; "" if no record has a time
 */
export function cellYears(records: readonly CellRecord[], width = 720): string {
  const dated = records
    .map((record): Dated => {
      const from = Date.parse(record.from.start ?? "");
      return { record, from, to: Date.parse(record.to.start ?? "") };
    })
    .filter(({ from, to }) => from <= to)
    .sort((a, b) => a.from - b.from);
  const [first, last] = [dated[0], dated.at(-1)];
  if (first === undefined || last === undefined) return "";
  const frame: Frame = {
    left: margin.left,
    right: width - margin.right,
    top: margin.top,
    bottom: margin.top + panelHeight,
  };
  const days = calibrationDays(dated);
  const x = scaleOver(extentOf([first.from, last.to, ...days], 0.06, 5 * day_ms), [
    frame.left,
    frame.right,
  ]);
  const target_ppm = Math.abs(gainForSalinity(-last.record.target));
  const y = scaleOver(gainDomain(dated, target_ppm), [frame.bottom, frame.top]);
  const [low, high] = y.domain().map((ppm) => salinityError(ppm));
  const salinity = roundTicks(scaleOver([low!, high!], [frame.bottom, frame.top]), 38);
  const keyed = key(keyOf(dated, days), margin.left, frame.bottom + margin.foot, width - 60);
  return drawing(
    { width, height: frame.bottom + margin.foot + keyed.height + 10 },
    `Cell ${first.record.serial} over ${dated.length} ${dated.length === 1 ? "cruise" : "cruises"}`,
    dated.map(spoken).join(" "),
    [
      targetAcross(frame, y, target_ppm),
      leftAxis(frame, roundTicks(y, 38), "gain error, ppm"),
      rightAxis(frame, salinity, "in salinity"),
      rule([frame.left, y(0)], [frame.right, y(0)], "quiet"),
      ...days.map((at) => calibrationRule(x(at), frame)),
      ...dated.map((one) => ofCruise(one, x, y)),
      label(`cell ${first.record.serial}`, frame.left, 16, { "font-weight": 600, "font-size": 13 }),
      bottomAxis(frame, thinned(dateTicks(x)), "", false),
      keyed.content,
    ].join(""),
  );
}

function ofCruise({ record, from, to }: Dated, x: Scale, y: Scale): string {
  const { cleanGain, films, shifts, cruise } = record;
  const places = [
    { at: from, gain: cleanGain.first },
    { at: to, gain: cleanGain.last },
  ];
  const bar = ({ at, gain: { ppm, standardUncertainty: u } }: (typeof places)[number]) =>
    whisker([x(at), y(ppm - reach * u)], [x(at), y(ppm + reach * u)], "primary");
  const middle = x((from + to) / 2);
  return [
    polyline(
      places.map(({ at, gain }): Point => [x(at), y(gain.ppm)]),
      "primary",
    ),
    ...places.map(bar),
    ...places.map(({ at, gain }) =>
      mark([x(at), y(gain.ppm)], cleanLook, `${cruise}: clean ${said(gain)}`),
    ),
    ...films.map(({ cast, largest }) =>
      mark(
        [middle, y(cleanGain.last.ppm + largest.ppm)],
        filmLook,
        `${cruise}, cast ${cast}: film ${said(largest)}`,
      ),
    ),
    ...shifts.map(({ sinceCast, change }) =>
      mark(
        [middle, y(cleanGain.last.ppm)],
        shiftLook,
        `${cruise}, since cast ${sinceCast}: shift ${said(change)}`,
      ),
    ),
  ].join("");
}

function calibrationRule(at: number, { top, bottom }: Frame): string {
  return rule([at, top], [at, bottom], "good", { "stroke-dasharray": "5 3" });
}

/** Each day once, ms. */
function calibrationDays(dated: readonly Dated[]): readonly number[] {
  const all = dated.flatMap(({ record: { calibrated, calibrations } }) => [
    Date.parse(calibrated ?? ""),
    ...calibrations.map(({ time }) => Date.parse(time ?? "")),
  ]);
  return [...new Set(all.filter(Number.isFinite))].sort((a, b) => a - b);
}

function gainDomain(dated: readonly Dated[], target_ppm: number): readonly [number, number] {
  return extentOf([
    1.3 * target_ppm,
    -1.3 * target_ppm,
    ...dated.flatMap(({ record: { cleanGain, films } }) => [
      ...[cleanGain.first, cleanGain.last].flatMap(({ ppm, standardUncertainty: u }) => [
        ppm - reach * u,
        ppm + reach * u,
      ]),
      ...films.map(({ largest }) => cleanGain.last.ppm + largest.ppm),
    ]),
  ]);
}

/** Years for several years, otherwise months. */
function dateTicks(x: Scale): readonly Tick[] {
  const [from, to] = x.domain() as [number, number];
  const years = to - from > 2 * 365 * day_ms;
  const ticks: Tick[] = [];
  const start = new Date(from);
  for (let month = 0; ; month += years ? 12 : 1) {
    const at = Date.UTC(start.getUTCFullYear(), years ? month : start.getUTCMonth() + month);
    if (at > to) return ticks;
    const words = new Date(at).toISOString().slice(0, years ? 4 : 7);
    if (at >= from) ticks.push({ at: x(at), words });
  }
}

function keyOf(dated: readonly Dated[], days: readonly number[]): readonly KeyEntry[] {
  const has = (what: "films" | "shifts") => dated.some(({ record }) => record[what].length > 0);
  return [
    { words: `clean gain, ${reach} standard uncertainties either way`, look: cleanLook },
    ...(has("films") ? [{ words: "lowest reading with a film", look: filmLook }] : []),
    ...(has("shifts") ? [{ words: "shift", look: shiftLook }] : []),
    ...(days.length > 0
      ? [
          {
            words: "calibration",
            sample: ([at, level]: Point) =>
              element("line", {
                x1: at,
                x2: at,
                y1: level - 7,
                y2: level + 7,
                ...paint({ stroke: "good" }),
                "stroke-dasharray": "5 3",
              }),
          },
        ]
      : []),
    targetEntry,
  ];
}

function said({ ppm, standardUncertainty }: CellRecord["cleanGain"]["last"]): string {
  return `${signed(ppm)} \u00b1 ${standardUncertainty.toFixed(0)} ppm`;
}

function spoken({ record: { cruise, cleanGain, films, to } }: Dated): string {
  const on = to.start?.slice(0, 10) ?? "";
  return `${cruise}, ${on}: clean ${said(cleanGain.last)}, ${films.length} ${films.length === 1 ? "film" : "films"}.`;
}
