// All casts: a table, and the reasons for each one behind a fold.
import type { CellName } from "../../../cast/cast.js";
import type { Verdict, VerdictDocument } from "../../../verdict/verdict.js";
import { bottlesOf, leading, ppm, start } from "../../../words/words.js";
import { html, type Markup } from "../html.js";

const stateWords: Readonly<Record<Verdict["data"], string>> = {
  sound: "sound",
  "usable-after-correction": "after correction",
  questionable: "questionable",
  bad: "bad",
};

export function castsSection({ casts, cruise: { timeZone } }: VerdictDocument): Markup {
  const cells = [...new Set(casts.flatMap(({ cells }) => Object.keys(cells) as CellName[]))];
  return html`<div class="scroll" role="region" aria-label="All casts" tabindex="0"><table>
<caption>Gain error as the up leg ended, as known when the cast came up</caption>
<thead><tr><th scope="col">cast</th><th scope="col">start</th>${cells.map((cell) => html`<th scope="col" class="number">${cell}</th><th scope="col">cause</th>`)}<th scope="col">salinity</th><th scope="col">bottles</th><th scope="col">advice</th></tr></thead>
<tbody>${casts.map((verdict) => row(verdict, cells, timeZone))}</tbody></table></div>
<p class="choose" id="choose">Choose a cast for its reasons:</p>
<div class="chips">${casts.map((verdict) => chip(verdict, timeZone))}</div>`;
}

function row(verdict: Verdict, cells: readonly CellName[], timeZone: string | undefined): Markup {
  const columns = cells.map((name) => {
    const cell = verdict.cells[name];
    return cell === undefined
      ? html`<td></td><td></td>`
      : html`<td class="number">${ppm(cell.gainError.up)}</td><td>${leading(cell)}</td>`;
  });
  return html`<tr class="${verdict.data === "sound" ? "" : "off"}"><th scope="row">${verdict.cast}</th><td>${start(verdict, timeZone)}</td>${columns}<td class="state">${stateWords[verdict.data]}</td><td>${bottlesOf(verdict)}</td><td>${verdict.advice.intensity}, ${verdict.advice.minutes.toFixed(0)} min</td></tr>`;
}

/** Opened without a script; one at a time if the browser supports the name attribute. */
function chip(verdict: Verdict, timeZone: string | undefined): Markup {
  const { cast, cells, advice, notes } = verdict;
  return html`<details name="cast"><summary>${cast}</summary><div>
<p class="quiet">${start(verdict, timeZone)}</p>
${Object.entries(cells).map(
  ([name, cell]) =>
    html`<p><strong>${name} cell: ${leading(cell)}, ${ppm(cell.gainError.up)}.</strong> ${cell.causes[0]?.because ?? ""}</p>`,
)}
<p><strong>Advice: ${advice.intensity}, ${advice.minutes.toFixed(0)} minutes.</strong> ${advice.because}</p>
${notes.length === 0 ? html`` : html`<ul>${notes.map((note) => html`<li>${note}</li>`)}</ul>`}
</div></details>`;
}
