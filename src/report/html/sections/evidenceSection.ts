// The lines of evidence of a cast one by one, and the response of its sensors.
import type { Verdict } from "../../../verdict/verdict.js";
import { percent } from "../../../words/percent.js";
import { sensorSentences } from "../../../words/sensorSentences.js";
import { signed } from "../../../words/signed.js";
import { html, type Markup, nothing } from "../html.js";

export function evidenceSection(verdict: Verdict): Markup {
  const { evidence, notes } = verdict;
  return html`${evidence.length === 0 ? html`<p>This cast has no evidence of its own.</p>` : evidenceTable(verdict)}
${sensors(verdict)}
${notes.length === 0 ? nothing : html`<h3>Notes on this cast</h3><ul>${notes.map((note) => html`<li>${note}</li>`)}</ul>`}`;
}

function sensors(verdict: Verdict): Markup {
  const { faults, response } = sensorSentences(verdict);
  if (faults.length + response.length === 0) return nothing;
  return html`<h3>Sensors</h3><ul>${faults.map((one) => html`<li><strong>Fault.</strong> ${one}</li>`)}${response.map((one) => html`<li>${one}</li>`)}</ul>`;
}

function evidenceTable({ evidence, cast }: Verdict): Markup {
  return html`<div class="scroll" role="region" aria-label="Evidence of cast ${cast}" tabindex="0"><table>
<caption>Each line of evidence of cast ${cast} on its own, in ppm of conductivity. Legs are up minus down. Pair is primary minus secondary. Deep water includes the variability of the water.</caption>
<thead><tr><th scope="col">line</th><th scope="col">cell</th><th scope="col" class="number">n</th><th scope="col" class="number">ppm</th><th scope="col" class="number">share of weight</th></tr></thead>
<tbody>${evidence.map(
    (one) =>
      html`<tr><th scope="row">${one.line}</th><td>${one.cell}</td><td class="number">${one.n}</td><td class="number">${signed(one.ppm)} \u00b1 ${one.standardUncertainty.toFixed(0)}</td><td class="number">${percent(one.weight)}</td></tr>`,
  )}</tbody></table></div>`;
}
