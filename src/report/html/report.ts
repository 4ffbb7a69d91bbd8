// The report: one HTML file that asks for nothing outside itself, runs no script, and prints.
import type { FigureData } from "../../figures/figureData.js";
import type { VerdictDocument } from "../../verdict/verdict.js";
import { start } from "../../words/words.js";
import { html, type Markup, nothing } from "./html.js";
import { castsSection } from "./sections/castsSection.js";
import { figuresSection } from "./sections/figuresSection.js";
import { leftOutSection } from "./sections/leftOutSection.js";
import { traceSection } from "./sections/traceSection.js";
import { verdictSection } from "./sections/verdictSection.js";
import { whySection } from "./sections/whySection.js";
import { style } from "./style.js";

/** Nothing is fetched and nothing runs; the one stylesheet is in the page. */
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'";

/** By which a report is known for one. */
export const reportMark = '<meta name="generator" content="foulcast">';

/**
 * @param figures from `figureData`, of the same cruise and document
 * @param cast    the cast to show in full; the latest where absent
 * @returns a whole HTML page as text
 * @throws RangeError where the named cast is not in the document
 */
export function report(
  document: VerdictDocument,
  figures: FigureData,
  cast = document.latest,
): string {
  const { cruise, casts } = document;
  const verdict = casts.find((found) => found.cast === cast);
  if (verdict === undefined) throw new RangeError(`no cast ${cast} in ${cruise.name}`);
  const begun = start(verdict);
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
<a class="skip" href="#verdict">To the verdict</a>
<header>
<p class="quiet">State of the conductivity cells after cast ${cast}${begun === "" ? "" : `, ${begun}`}</p>
<h1>${cruise.name}</h1>
${cruise.note === undefined ? nothing : html`<p>${cruise.note}</p>`}
<p class="quiet">${casts.length} ${casts.length === 1 ? "cast" : "casts"}, target ${cruise.target} in salinity</p>
<nav aria-label="Parts of this report"><ul>${parts.map(([id, name]) => html`<li><a href="#${id}">${name}</a></li>`)}</ul></nav>
</header>
<main>
${verdictSection(verdict, cruise)}
${whySection(verdict)}
${figuresSection(figures, cast, verdict.advice)}
${castsSection(document)}
${leftOutSection(document)}
${traceSection(document, verdict)}
</main>
</body>
</html>
`;
  return `${head.markup}\n${body.markup}`;
}

const parts = [
  ["verdict", "Verdict"],
  ["why", "Why"],
  ["figures", "Figures"],
  ["casts", "Casts"],
  ["left-out", "Left out"],
  ["trace", "Settings and trace"],
] as const;
