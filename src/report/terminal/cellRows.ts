// The reasons for the verdict on a cell: its course so far, its cause, other possible causes, the forecast.
import type { CellName } from "../../cast/cast.js";
import { capitalised, reportedOnset } from "../../causes/sentences.js";
import { earlierCasts } from "../../verdict/judge/earlierCasts.js";
import type { CellVerdict, Verdict, VerdictDocument } from "../../verdict/verdict.js";
import { percent } from "../../words/percent.js";
import { leading as leadingCause } from "../../words/words.js";
import type { RowWriter } from "./adviceRows.js";
import { sparkline, usualSpan_ppm } from "./sparkline.js";

/** Number of casts drawn as bars. */
const mostBars = 30;

export function cellRows(
  verdict: Verdict,
  document: VerdictDocument,
  full: boolean,
  row: RowWriter,
): string[] {
  const before = document.casts.slice(0, document.casts.indexOf(verdict));
  return (Object.entries(verdict.cells) as [CellName, CellVerdict][]).flatMap(([name, cell]) => {
    const [leading, ...rest] = cell.causes;
    if (leading === undefined) return [];
    const others = rest.filter(({ probability }) => probability >= 0.02);
    const when = reportedOnset(cell.change, earlierCasts(before, name));
    const [low, high] = cell.gainError.up.interval95.map((edge) => edge.toFixed(0));
    return [
      row(`${name} cell`, `${capitalised(leadingCause(cell))}. ${leading.because}`),
      ...(full ? [row("", `95 % interval of the gain error: ${low} to ${high} ppm`)] : []),
      ...(full && when !== undefined
        ? [row("change", `${when} (${percent(cell.change.probability)})`)]
        : []),
      ...(others.length === 0
        ? []
        : [row("or", others.map((c) => `${c.cause} ${percent(c.probability)}`).join(", "))]),
      ...trackRow(document, verdict, name, row),
      row("next station", forecastWords(cell, full)),
    ];
  });
}

/** The gain of this cell from cast to cast, up to the one shown, as bars: the lowest is the freshest reading. */
function trackRow(
  { casts }: VerdictDocument,
  shown: Verdict,
  name: CellName,
  row: RowWriter,
): string[] {
  const all = casts.slice(0, casts.indexOf(shown) + 1);
  const gains = all.slice(-mostBars).flatMap(({ cells }) => cells[name]?.gainError.up.ppm ?? []);
  if (gains.length < 2) return [];
  const [low, high] = [Math.min(...gains), Math.max(...gains)].map((ppm) => ppm.toFixed(0));
  const over = all.length > mostBars ? `the last ${mostBars}` : String(gains.length);
  return [
    row("so far", `${sparkline(gains, usualSpan_ppm)} ${low} to ${high} ppm over ${over} casts`),
  ];
}

function forecastWords({ forecast }: CellVerdict, full: boolean): string {
  const { hours, gainError, probabilityBeyondTarget } = forecast;
  const [low, high] = gainError.interval95.map((edge) => edge.toFixed(0));
  const range = full ? ` 95 % interval of the gain error ${low} to ${high} ppm;` : "";
  return (
    `in ${hours.toFixed(0)} h, without cleaning:${range} beyond the target with ` +
    `${percent(probabilityBeyondTarget)} probability`
  );
}
