// Response of the cells, cast by cast, in numbers.

import {
  type ResponseRow,
  type ResponseTable,
  responseTableSays,
} from "../../../words/responseTable.js";
import { html, type Markup } from "../html.js";

export function responseSection({ cells, rows }: ResponseTable): Markup {
  const titles = cells.flatMap((one) => one.titles);
  return html`<div class="scroll" role="region" aria-label="Response of the cells, in numbers" tabindex="0"><table>
<caption>${responseTableSays}</caption>
<thead><tr><th scope="col" rowspan="2">cast</th>${cells.map(({ cell, titles: own }) => html`<th scope="colgroup" colspan="${own.length}">${cell} cell</th>`)}<th scope="col" rowspan="2">compared with earlier casts</th></tr>
<tr>${titles.map((title) => html`<th scope="col" class="number">${title}</th>`)}</tr></thead>
<tbody>${rows.map(row)}</tbody></table></div>`;
}

function row({ cast, words, beside, differs }: ResponseRow): Markup {
  return html`<tr class="${differs ? "off" : ""}"><th scope="row">${cast}</th>${words.map((word) => html`<td class="number">${word}</td>`)}<td class="state">${beside}</td></tr>`;
}
