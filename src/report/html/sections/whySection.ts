// The causes with their reasons, the sampling that would decide, and the outcomes of past cleanings.

import type { CellName } from "../../../cast/cast.js";
import { reportedOnset } from "../../../causes/sentences.js";
import { earlierCasts } from "../../../verdict/judge/earlierCasts.js";
import type { CellVerdict, Verdict, VerdictDocument } from "../../../verdict/verdict.js";
import { percent } from "../../../words/percent.js";
import { html, type Markup, nothing } from "../html.js";

/** Less probable causes have no sentence. */
const leastTold = 0.02;

export function whySection(verdict: Verdict, { casts }: VerdictDocument): Markup {
  const { cells, wouldDecide, cleaned = [] } = verdict;
  const before = casts.slice(0, casts.indexOf(verdict));
  return html`<section aria-labelledby="why">
<h2 id="why">Why</h2>
${(Object.entries(cells) as [CellName, CellVerdict][]).map(([name, cell]) => cellWhy(name, cell, before))}
${wouldDecide.length === 0 ? nothing : html`<h3>What would decide</h3><ul>${wouldDecide.map((one) => html`<li>${one}</li>`)}</ul>`}
${
  cleaned.length === 0
    ? nothing
    : html`<h3>What cleaning left</h3><ul>${cleaned.map(
        (one) =>
          html`<li>The ${one.intensity} after cast ${one.afterCast} left ${one.retained.toFixed(2)} \u00b1 ${one.standardUncertainty.toFixed(2)} of the film in the ${one.cell} cell.</li>`,
      )}</ul>`
}
<h3>What would have changed the advice</h3>
<ul>${verdict.advice.sensitivity.map((one) => html`<li>${one}</li>`)}</ul>
</section>`;
}

function cellWhy(name: CellName, cell: CellVerdict, before: readonly Verdict[]): Markup {
  const told = cell.causes.filter(({ probability }, i) => i === 0 || probability >= leastTold);
  const when = reportedOnset(cell.change, earlierCasts(before, name));
  return html`<h3>${name} cell</h3>
<ul>${told.map((one) => html`<li><strong>${one.cause}, ${percent(one.probability)}.</strong> ${one.because}</li>`)}</ul>
${when === undefined ? nothing : html`<p class="quiet">Most probable change: ${when} (${percent(cell.change.probability)}).</p>`}`;
}
