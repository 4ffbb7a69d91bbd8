// Why: the causes and what speaks for them, the lines of evidence, what would settle it, what past cleanings left.

import { since } from "../../../causes/sentences.js";
import type { CellVerdict, Verdict } from "../../../verdict/verdict.js";
import { percent } from "../../../words/percent.js";
import { sensorSentences } from "../../../words/sensorSentences.js";
import { signed } from "../../../words/signed.js";
import { html, type Markup, nothing } from "../html.js";

/** Causes below this are not told in words. */
const leastTold = 0.02;

export function whySection(verdict: Verdict): Markup {
  const { cells, evidence, wouldDecide, cleaned = [] } = verdict;
  return html`<section aria-labelledby="why">
<h2 id="why">Why</h2>
${Object.entries(cells).map(([name, cell]) => cellWhy(name, cell))}
${wouldDecide.length === 0 ? nothing : html`<h3>What would decide</h3><ul>${wouldDecide.map((one) => html`<li>${one}</li>`)}</ul>`}
${
  cleaned.length === 0
    ? nothing
    : html`<h3>What cleaning left</h3><ul>${cleaned.map(
        (one) =>
          html`<li>The ${one.intensity} after cast ${one.afterCast} left ${one.retained.toFixed(2)} \u00b1 ${one.standardUncertainty.toFixed(2)} of the film in the ${one.cell} cell.</li>`,
      )}</ul>`
}
${evidence.length === 0 ? html`<p>This cast brought no evidence of its own.</p>` : evidenceTable(verdict)}
${sensors(verdict)}
<h3>What would have changed the advice</h3>
<ul>${verdict.advice.sensitivity.map((one) => html`<li>${one}</li>`)}</ul>
</section>`;
}

function sensors(verdict: Verdict): Markup {
  const { amiss, response } = sensorSentences(verdict);
  if (amiss.length + response.length === 0) return nothing;
  return html`<h3>Sensors</h3><ul>${amiss.map((one) => html`<li><strong>Amiss.</strong> ${one}</li>`)}${response.map((one) => html`<li>${one}</li>`)}</ul>`;
}

function cellWhy(name: string, cell: CellVerdict): Markup {
  const told = cell.causes.filter(({ probability }, i) => i === 0 || probability >= leastTold);
  const { kind, probability } = cell.change;
  return html`<h3>${name} cell</h3>
<ul>${told.map((one) => html`<li><strong>${one.cause}, ${percent(one.probability)}.</strong> ${one.because}</li>`)}</ul>
${kind === "none" ? nothing : html`<p class="quiet">Most probable change: ${since(cell.change)} (${percent(probability)}).</p>`}`;
}

function evidenceTable({ evidence, cast }: Verdict): Markup {
  return html`<div class="scroll" role="region" aria-label="Evidence of cast ${cast}" tabindex="0"><table>
<caption>Each line of evidence of cast ${cast} on its own, in ppm of conductivity; legs: up minus down, pair: primary minus secondary, deep-water: with what the water departs from its curve by</caption>
<thead><tr><th scope="col">line</th><th scope="col">cell</th><th scope="col" class="number">n</th><th scope="col" class="number">ppm</th><th scope="col" class="number">share of weight</th></tr></thead>
<tbody>${evidence.map(
    (one) =>
      html`<tr><th scope="row">${one.line}</th><td>${one.cell}</td><td class="number">${one.n}</td><td class="number">${signed(one.ppm)} \u00b1 ${one.standardUncertainty.toFixed(0)}</td><td class="number">${percent(one.weight)}</td></tr>`,
  )}</tbody></table></div>`;
}
