// The report: one HTML file that loads nothing, needs no script, and prints on four pages at most: the
// answer, the checklist, why. The rest is behind folds.
import type { FigureData } from "../../figures/figureData.js";
import type { VerdictDocument } from "../../verdict/verdict.js";
import { start } from "../../words/words.js";
import { hints, hintsHash } from "./hints.js";
import { html, type Markup } from "./html.js";
import { castFigures } from "./sections/castFigures.js";
import { castsSection } from "./sections/castsSection.js";
import { checklistSection } from "./sections/checklistSection.js";
import { evidenceSection } from "./sections/evidenceSection.js";
import { figuresSection } from "./sections/figuresSection.js";
import { leftOutSection } from "./sections/leftOutSection.js";
import { traceSection } from "./sections/traceSection.js";
import { verdictSection } from "./sections/verdictSection.js";
import { whySection } from "./sections/whySection.js";
import { style } from "./style.js";

/** No file is loaded; one script runs, identified by its hash, and the only stylesheet is in the page. */
const policy = `default-src 'none'; style-src 'unsafe-inline'; script-src '${hintsHash}'; base-uri 'none'; form-action 'none'`;

/** The mark by which a report is recognised. */
export const reportMark = '<meta name="generator" content="foulcast">';

/**
 * A verdict document as one HTML page.
 * @param figures from `figureData`, of the same cruise and document
 * @param cast    the cast to show in full; the latest if absent
 * @returns a whole HTML page as text
 * @throws RangeError if the named cast is not in the document
 */
export function report(
  document: VerdictDocument,
  figures: FigureData,
  cast = document.latest,
): string {
  const { cruise, casts } = document;
  const verdict = casts.find((found) => found.cast === cast);
  if (verdict === undefined) throw new RangeError(`no cast ${cast} in ${cruise.name}`);
  const begun = start(verdict, cruise.timeZone);
  const head: Markup = html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
${{ markup: reportMark }}
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<title>Cast ${cast}, ${cruise.name}: conductivity cells</title>
<style>${{ markup: style }}</style>
</head>`;
  const body = html`<body>
<a class="skip" href="#verdict">To the answer</a>
<header>
<h1>${cruise.name}</h1>
<p class="quiet">After cast ${cast}${begun === "" ? "" : `, ${begun}`}; ${casts.length} ${casts.length === 1 ? "cast" : "casts"} so far</p>
</header>
<main>
${verdictSection(verdict, cruise, figures)}
<nav aria-label="Parts of this report"><ul>${parts.map(([id, name]) => html`<li><a href="#${id}">${name}</a></li>`)}</ul></nav>
${checklistSection(document, verdict)}
${whySection(verdict, document)}
${castFigures(figures, cast)}
${fold("evidence", `Evidence and sensors of cast ${cast}`, evidenceSection(verdict))}
${fold("figures", "More figures", figuresSection(figures, cast, verdict.advice))}
${fold("casts", `All casts (${casts.length})`, castsSection(document))}
${fold("left-out", "Left out", leftOutSection(document))}
${fold("trace", "Settings and trace", traceSection(document))}
</main>
<script>${{ markup: hints }}</script>
</body>
</html>
`;
  return `${head.markup}\n${body.markup}`;
}

const parts = [
  ["checklist", "Checklist"],
  ["why", "Why"],
  ["cast", "The cast"],
  ["evidence", "Evidence"],
  ["figures", "More figures"],
  ["casts", "All casts"],
  ["left-out", "Left out"],
  ["trace", "Trace"],
] as const;

/** A part that can be opened without a script, and is printed if it is open. */
function fold(id: string, title: string, content: Markup): Markup {
  return html`<details class="fold"><summary><h2 id="${id}">${title}</h2></summary>
${content}</details>`;
}
