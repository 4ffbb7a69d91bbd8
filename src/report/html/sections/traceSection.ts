// Settings and trace: the request, the software, and the input files.
import type { VerdictDocument } from "../../../verdict/verdict.js";
import { html, type Markup, nothing } from "../html.js";

export function traceSection(document: VerdictDocument): Markup {
  const { cruise, software, inputs, format, settings } = document;
  const remarks = inputs.flatMap(({ name, notes: of }) => of.map((note) => `${name}: ${note}`));
  return html`<p>Target ${cruise.target} in Practical Salinity. Confidence required of a cleaning ${settings.confidence}. Cleaning procedure ${settings.procedure}${hands(settings.trainedHands)}. Made by ${software.name} ${software.version}, ${format}. Each verdict uses only what was known when its cast came up.</p>
${remarks.length === 0 ? nothing : html`<h3>Notes on the files</h3><ul>${remarks.map((note) => html`<li>${note}</li>`)}</ul>`}
${inputs.length === 0 ? nothing : files(inputs)}`;
}

function files(inputs: VerdictDocument["inputs"]): Markup {
  return html`<div class="scroll" role="region" aria-label="Files" tabindex="0"><table>
<caption>Input files</caption>
<thead><tr><th scope="col">file</th><th scope="col">as</th><th scope="col" class="number">rows</th><th scope="col" class="number">left out</th><th scope="col">SHA-256</th></tr></thead>
<tbody>${inputs.map(
    ({ name, role, rows, leftOut, sha256 }) =>
      html`<tr><th scope="row">${name}</th><td>${role}</td><td class="number">${rows}</td><td class="number">${leftOut.length}</td><td><code>${sha256 ?? "not from a file"}</code></td></tr>`,
  )}</tbody></table></div>`;
}

function hands(trained: boolean | undefined): string {
  if (trained === undefined) return "";
  return trained ? "; trained people on board" : "; no trained people on board";
}
