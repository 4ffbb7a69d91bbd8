// What, how sure, what to do, minutes, cautions: all that a tired person needs, before anything else.
import type { Advice } from "../../../cleaning/decision/advice.js";
import type { CellVerdict, Verdict, VerdictDocument } from "../../../verdict/verdict.js";
import { percent } from "../../../words/percent.js";
import { signed } from "../../../words/signed.js";
import { beyondTarget, capital, inSalinity, leading, ppm } from "../../../words/words.js";
import { dataWords } from "../../terminal/terminalSummary.js";
import { html, type Markup } from "../html.js";

export function verdictSection(verdict: Verdict, { target }: VerdictDocument["cruise"]): Markup {
  const cells = Object.entries(verdict.cells).map(([name, cell]) => tile(name, cell, target));
  return html`<section class="verdict" aria-labelledby="verdict">
<h2 id="verdict">The verdict on cast ${verdict.cast}</h2>
<div class="tiles">
${cells}
<div class="tile"><h3>salinity of this cast</h3><p class="what"><small>${dataWords[verdict.data]}</small></p></div>
</div>
${toDo(verdict.advice)}
</section>`;
}

function tile(name: string, cell: CellVerdict, target: number): Markup {
  const { up } = cell.gainError;
  const beyond = beyondTarget(cell, target);
  const state = cell.causes[0]?.cause === "sound" && !beyond ? "sound" : beyond ? "off" : "";
  const [low, high] = up.interval95.map((edge) => signed(edge));
  return html`<div class="tile ${state}"><h3>${name} cell</h3>
<p class="what">${leading(cell)}</p>
<p><strong>${ppm(up)}</strong> of conductivity, ${inSalinity(up)}</p>
<p>95 % between ${low!} and ${high!} ppm; ${beyond ? "beyond" : "within"} the target of ${target}</p>
<p class="quiet">Next station, in ${cell.forecast.hours.toFixed(0)} h and left as it is: beyond the target with probability ${percent(cell.forecast.probabilityBeyondTarget)}</p></div>`;
}

function toDo(advice: Advice): Markup {
  return html`<div class="do"><h3>Before the next station${advice.deepClean ? " \u2013 a deep clean" : ""}</h3>
<p class="act">${capital(advice.intensity)}, ${advice.minutes.toFixed(0)} minutes</p>
<p>${advice.action}</p>
<p class="quiet">${advice.because}</p>
${cautions(advice)}
<div class="columns"><div><h3>Steps</h3><ol>${advice.steps.map((step) => html`<li>${step}</li>`)}</ol></div>
<div><h3>Materials</h3><ul>${advice.materials.map((one) => html`<li>${one}</li>`)}</ul></div></div>
</div>`;
}

function cautions({ cautions: all }: Advice): Markup {
  return html`<div class="cautions"><h3>Cautions</h3><ul>${all.map((one) => html`<li>${one}</li>`)}</ul></div>`;
}
