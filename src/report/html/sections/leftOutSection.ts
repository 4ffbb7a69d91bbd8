// Excluded data with reasons: of the evidence of every cast, and of the files.
import type { InputFile } from "../../../cast/inputFile.js";
import type { Verdict, VerdictDocument } from "../../../verdict/verdict.js";
import { leftOutOf } from "../../../words/leftOut.js";
import { html, type Markup, nothing } from "../html.js";

/** More rows of one file than this are only counted. */
const mostRows = 40;

export function leftOutSection({ casts, inputs }: VerdictDocument): Markup {
  const rows = casts.flatMap(ofCast);
  const files = inputs.flatMap(ofFile);
  return html`${rows.length === 0 ? html`<p>No evidence was left out.</p>` : table("Evidence that was not used", ["cast", "line", "cell", "what", "why"], rows)}
${files.length === 0 ? html`<p>No row of a file was left out.</p>` : table("Rows of files that were not used", ["file", "line", "why"], files)}`;
}

function ofCast(verdict: Verdict): readonly (readonly string[])[] {
  return leftOutOf(verdict).map(({ line, cell, what, why }) => [
    verdict.cast,
    line,
    cell ?? "both",
    what,
    why,
  ]);
}

function ofFile({ name, leftOut }: InputFile): readonly (readonly string[])[] {
  const rest = leftOut.length - mostRows;
  return [
    ...leftOut.slice(0, mostRows).map(({ line, why }) => [name, String(line), why]),
    ...(rest > 0 ? [[name, "", `and ${rest} more rows`]] : []),
  ];
}

function table(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): Markup {
  if (rows.length === 0) return nothing;
  return html`<div class="scroll" role="region" aria-label="${caption}" tabindex="0"><table>
<caption>${caption}</caption>
<thead><tr>${head.map((word) => html`<th scope="col">${word}</th>`)}</tr></thead>
<tbody>${rows.map(([first, ...others]) => html`<tr><th scope="row">${first ?? ""}</th>${others.map((one) => html`<td>${one}</td>`)}</tr>`)}</tbody></table></div>`;
}
