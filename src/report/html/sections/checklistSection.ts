// One page to print and take on deck: cell, materials, amounts, steps, cautions where they apply, next checks, sign-off.
import { type Moment, momentOf, moments } from "../../../cleaning/cautions.js";
import { batterySentence } from "../../../cleaning/record/battery.js";
import type { Verdict, VerdictDocument } from "../../../verdict/verdict.js";
import { headlineOf } from "../../../words/headline.js";
import { start } from "../../../words/words.js";
import { html, type Markup, nothing } from "../html.js";
import { amounts } from "./amounts.js";

const titles: Readonly<Record<Moment, string>> = {
  before: "Before you begin",
  during: "While you work",
  "if it goes wrong": "If it goes wrong",
  after: "Afterwards",
};

export function checklistSection(document: VerdictDocument, verdict: Verdict): Markup {
  const { advice, cells } = verdict;
  const { cruise, beforeNextCast, latest } = document;
  // The record is checked as of now, not as of an earlier cast.
  const next = verdict.cast === latest ? beforeNextCast : undefined;
  const cautions = [...new Set([...advice.cautions, ...(next?.cautions ?? [])])];
  const told = (moment: Moment) => warned(titles[moment], of(cautions, moment));
  const serials = advice.cells.flatMap((cell) => cells[cell]?.serial ?? []).join(", ");
  const words = [...cautions, ...advice.materials, ...advice.steps, ...nextWords(next)];
  return html`<section class="sheet" style="--sheet:${size(words).toFixed(1)}pt" aria-labelledby="checklist">
<h2 id="checklist">Checklist: ${headlineOf(verdict).toDo}</h2>
<p class="quiet">${cruise.name}, after cast ${verdict.cast}${when(verdict, cruise)}${serials === "" ? "" : `. Serial number: ${serials}`}</p>
<div class="flow">
${told(moments[0])}
<h3>Materials</h3>${boxes(advice.materials)}
${amounts(advice.solutions)}
${told("during")}
<h3>Steps</h3>${boxes(advice.steps, "ol")}
${told("if it goes wrong")}
${told("after")}
${next === undefined ? nothing : nextChecks(next)}
<h3>Signed off</h3>
<dl class="sign"><dt>Begun, UTC</dt><dd></dd><dt>Ended, UTC</dt><dd></dd><dt>By</dt><dd></dd><dt>Came out of the cell</dt><dd></dd></dl>
<p class="quiet">Write it in the maintenance record as ${advice.intensity}. The next cast shows whether it worked.</p>
</div>
</section>`;
}

/**
 * Number of letters that fill a page of A4 in two columns at the usual size, beside amounts and sign-off (judgement, by
 * trial).
 */
const pageful = 3600;
const usual_pt = 8.2;

/** A longer text is printed smaller, so that it stays on one page. */
function size(words: readonly string[]): number {
  // A short line still takes a whole line.
  const letters = words.reduce((sum, text) => sum + Math.max(50, text.length + 15), 0);
  return Math.min(usual_pt, usual_pt * Math.sqrt(pageful / letters));
}

function nextWords(next: VerdictDocument["beforeNextCast"]): readonly string[] {
  if (next === undefined) return [];
  const { due, battery } = next;
  return [
    ...due.map(({ what, because }) => `${what} ${because}`),
    ...(battery === undefined ? [] : [batterySentence(battery)]),
  ];
}

function when(verdict: Verdict, { timeZone }: VerdictDocument["cruise"]): string {
  const begun = start(verdict, timeZone);
  return begun === "" ? "" : `, ${begun}`;
}

function of(cautions: readonly string[], moment: Moment): readonly string[] {
  return cautions.filter((caution) => momentOf(caution) === moment);
}

function warned(title: string, cautions: readonly string[]): Markup {
  if (cautions.length === 0) return nothing;
  return html`<div class="cautions"><h3>${title}</h3><ul>${cautions.map((one) => html`<li>${one}</li>`)}</ul></div>`;
}

function boxes(items: readonly string[], list: "ul" | "ol" = "ul"): Markup {
  const rows = items.map((item) => html`<li><label><input type="checkbox">${item}</label></li>`);
  return list === "ol"
    ? html`<ol class="boxes">${rows}</ol>`
    : html`<ul class="boxes">${rows}</ul>`;
}

function nextChecks({ due, battery }: NonNullable<VerdictDocument["beforeNextCast"]>): Markup {
  if (due.length === 0 && battery === undefined) return nothing;
  return html`<h3>Before the next cast</h3>${boxes(due.map(({ what, because }) => `${what} ${because}`))}
${battery === undefined ? nothing : html`<p>${batterySentence(battery)}</p>`}`;
}
