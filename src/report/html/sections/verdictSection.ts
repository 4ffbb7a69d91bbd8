// The answer, before anything else: which cell is clean, what to do, for how long, and whose salinity to use.

import { capitalised } from "../../../causes/sentences.js";
import type { FigureData } from "../../../figures/figureData.js";
import { gainTrack } from "../../../figures/gainTrack.js";
import type { CellVerdict, Verdict, VerdictDocument } from "../../../verdict/verdict.js";
import { dataWords } from "../../../words/dataWords.js";
import { type CellHeadline, headlineOf } from "../../../words/headline.js";
import { percent } from "../../../words/percent.js";
import { signed } from "../../../words/signed.js";
import { beyondTarget, inSalinity, ppm } from "../../../words/words.js";
import { html, type Markup, nothing } from "../html.js";
import { shownFigure } from "../shownFigure.js";

export function verdictSection(
  verdict: Verdict,
  { target, note }: VerdictDocument["cruise"],
  figures: FigureData,
): Markup {
  const { cells, toDo, salinity } = headlineOf(verdict);
  return html`<section class="verdict" aria-labelledby="verdict">
<h2 id="verdict" class="act">${toDo}</h2>
<div class="tiles">${cells.map((one) => tile(one, verdict.cells[one.cell]!, target))}</div>
<p class="salinity"><strong>${salinity}</strong></p>
<p>${verdict.advice.action}</p>
<p class="quiet">${verdict.advice.because}</p>
${note === undefined ? nothing : html`<p class="quiet">${note}</p>`}
${shownFigure(
  "The cell through the cruise",
  "The line is the gain error as known when each cast came up, with its 95 % band. Inside the tinted band the cell is within the target. Each mark is the result of one line of evidence alone. A dotted bar stands for a very uncertain result. A dashed vertical line is a cleaning, a short tick a rinse.",
  (width) => gainTrack(figures, width),
)}
</section>`;
}

function tile(
  { cell: name, serial, clean, state, cause, data }: CellHeadline,
  cell: CellVerdict,
  target: number,
): Markup {
  const { up } = cell.gainError;
  const beyond = beyondTarget(cell, target);
  const look = beyond || clean === "not clean" ? "off" : clean === "clean" ? "sound" : "";
  const [low, high] = up.interval95.map((edge) => signed(edge));
  return html`<div class="tile ${look}"><h3>${name} cell${serial === undefined ? "" : ` ${serial}`}</h3>
<p class="what"><b>${capitalised(state)}:</b> <span>${cause}</span></p>
<p>Data: ${dataWords[data]}.</p>
<p>Gain error <strong>${ppm(up)}</strong> (95 %: ${low!} to ${high!}), ${inSalinity(up)}: ${beyond ? "beyond" : "within"} the target of ${target}</p>
<p class="quiet">Next station, in ${cell.forecast.hours.toFixed(0)} h, without cleaning: beyond the target with ${percent(cell.forecast.probabilityBeyondTarget)} probability</p></div>`;
}
