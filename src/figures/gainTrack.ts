// Gain error of each cell through the cruise, with its evidence.
import type { CellName } from "../cast/cast.js";
import { salinityError } from "../model/salinityError.js";
import { signed } from "../words/signed.js";
import { bottomAxis, type Frame, leftAxis, rightAxis } from "./axes.js";
import type { FigureData } from "./figureData.js";
import { type CellCast, changeMark, cleanings, place } from "./gainTrackEvents.js";
import { evidenceMarks, evidenceValues } from "./gainTrackEvidence.js";
import { nextStation, trackKey } from "./gainTrackKey.js";
import { key } from "./key.js";
import { band, cellHeading, dashOf, mark, type Point, polyline, whisker } from "./marks.js";
import { extentOf, roundTicks, type Scale, scaleOver, thinned } from "./scales.js";
import { drawing, label, rule } from "./svg.js";
import { targetAcross } from "./target.js";

const panelHeight = 200;
const margin = { left: 50, right: 58, top: 46, between: 44, foot: 44 };

/**
 * Gain error of every cell with its 95 % band, evidence by line, cleanings, the change, the target and the forecast for the
 * next station. There is a panel for each cell, with the casts in order on the horizontal axis.
 * @param width px; from about 320
 * @returns SVG text
 */
export function gainTrack(data: FigureData, width = 720): string {
  const { cells, casts, cruise, target_ppm } = data;
  const frames = cells.map((_, i): Frame => {
    const top = margin.top + i * (panelHeight + margin.between);
    return { left: margin.left, right: width - margin.right, top, bottom: top + panelHeight };
  });
  const x = scaleOver([0, casts.length + 0.8], [margin.left, width - margin.right]);
  const foot = frames.at(-1)!;
  const keyed = key(trackKey(data), margin.left, foot.bottom + margin.foot, width - 60);
  const ticks = [
    ...casts.map(({ id }, i) => ({ at: x(i + 0.45), words: shortened(id) })),
    { at: x(casts.length + place.next), words: "next" },
  ];
  const content = [
    ...cells.map((cell, i) => panel(data, cell, frames[i]!, x)),
    bottomAxis(foot, thinned(ticks), "cast", false),
    keyed.content,
  ];
  const height = foot.bottom + margin.foot + keyed.height + 10;
  const description = cells.map((cell) => spoken(data, cell)).join(" ");
  return drawing(
    { width, height },
    `Gain error of the ${cells.join(" and the ")} cell through ${casts.length} casts of ${cruise.name}`,
    `${description} The target of ${cruise.target} in salinity is ${target_ppm.toFixed(0)} ppm either way.`,
    content.join(""),
  );
}

function panel(data: FigureData, cell: CellName, frame: Frame, x: Scale): string {
  const track = trackOf(data, cell);
  const last = track.at(-1);
  const { target_ppm, casts } = data;
  const y = scaleOver(gainDomain(data, cell), [frame.bottom, frame.top]);
  const gains = track.flatMap(({ at, verdict: { gainError } }) =>
    (["down", "up"] as const).map((leg) => ({ x: x(at + place[leg]), ...gainError[leg] })),
  );
  const ticks = roundTicks(y, 38);
  const [low, high] = y.domain().map((ppm) => salinityError(ppm));
  const salinity = roundTicks(scaleOver([low!, high!], [frame.bottom, frame.top]), 38);
  const shown = last === undefined ? "" : ahead(last, x, y, cell);
  return [
    targetAcross(frame, y, target_ppm),
    leftAxis(frame, ticks, "gain error, ppm"),
    rightAxis(frame, salinity, "in salinity"),
    rule([frame.left, y(0)], [frame.right, y(0)], "quiet"),
    ...casts.map((cast, at) => cleanings(cast.maintenanceAfter, cell, x(at + place.work), frame)),
    band(
      gains.map((g) => [g.x, y(g.interval95[0]), y(g.interval95[1])] as const),
      cell,
    ),
    polyline(
      gains.map((g): Point => [g.x, y(g.ppm)]),
      cell,
      dashOf[cell],
    ),
    changeMark(last, casts, frame, x),
    evidenceMarks(casts, cell, (at) => x(at + place.up), y),
    shown,
    cellHeading(cell, frame.left, frame.top - 26),
    last === undefined
      ? ""
      : label(
          `cast ${shortened(last.id)}: ${signed(last.verdict.gainError.up.ppm)} \u00b1 ${last.verdict.gainError.up.standardUncertainty.toFixed(0)} ppm`,
          frame.right + 52,
          frame.top - 26,
          { "text-anchor": "end", "font-weight": 600 },
        ),
  ].join("");
}

function trackOf({ casts }: FigureData, cell: CellName): readonly CellCast[] {
  return casts.flatMap(({ id, verdict }, at) => {
    const found = verdict.cells[cell];
    return found === undefined ? [] : [{ at, id, verdict: found }];
  });
}

/** Range for the target, the gains and their evidence, without very wide intervals. */
function gainDomain(data: FigureData, cell: CellName): readonly [number, number] {
  const { target_ppm } = data;
  const track = trackOf(data, cell);
  const estimates = track.flatMap(({ verdict: { gainError } }) => [gainError.down, gainError.up]);
  const last = track.at(-1)?.verdict;
  if (last !== undefined) estimates.push(last.gainError.now, last.forecast.gainError);
  const known = estimates.filter((e) => e.standardUncertainty < 2 * target_ppm);
  return extentOf([
    1.3 * target_ppm,
    -1.3 * target_ppm,
    ...estimates.map(({ ppm }) => ppm),
    ...known.flatMap(({ interval95 }) => interval95),
    ...data.casts.flatMap((cast) => evidenceValues(cast, cell)),
  ]);
}

/** From the last cast to the next station, without a cleaning. */
function ahead({ at, verdict }: CellCast, x: Scale, y: Scale, cell: CellName): string {
  const { now } = verdict.gainError;
  const { gainError: then, hours } = verdict.forecast;
  const [from, to] = [x(at + place.work), x(at + 1 + place.next)];
  const said = `next station, in ${hours.toFixed(0)} h: ${signed(then.ppm)} \u00b1 ${then.standardUncertainty.toFixed(0)} ppm`;
  return [
    polyline(
      [
        [x(at + place.up), y(verdict.gainError.up.ppm)],
        [from, y(now.ppm)],
        [to, y(then.ppm)],
      ],
      cell,
      { "stroke-dasharray": "2 3" },
    ),
    whisker([to, y(then.interval95[0])], [to, y(then.interval95[1])], cell),
    mark([to, y(then.ppm)], { shape: nextStation, colour: cell, hollow: true, area: 60 }, said),
  ].join("");
}

function spoken(data: FigureData, cell: CellName): string {
  const track = trackOf(data, cell);
  const [first, last] = [track[0], track.at(-1)];
  if (first === undefined || last === undefined) return `Nothing is known about the ${cell} cell.`;
  const said = ({ verdict }: CellCast) => `${verdict.gainError.up.ppm.toFixed(0)} ppm`;
  return `The ${cell} cell read ${said(first)} on cast ${first.id} and ${said(last)} on cast ${last.id}.`;
}

function shortened(id: string): string {
  return id.length > 8 ? `${id.slice(0, 7)}\u2026` : id;
}
