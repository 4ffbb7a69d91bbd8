// A figure of the page with its name and a note on what to look for; drawn twice, for wide pages and for phones.
import { figureMarkup, html, type Markup, nothing } from "./html.js";

const [wide, narrow] = [912, 360];

/** @param draw returns "" if there is nothing to show */
export function shownFigure(
  name: string,
  caption: string,
  draw: (width: number) => string,
): Markup {
  const svg = draw(wide);
  if (svg === "") return nothing;
  return html`<figure><figcaption><b>${name}</b>${caption}</figcaption>
<div class="wide">${figureMarkup(svg)}</div><div class="narrow">${figureMarkup(draw(narrow))}</div></figure>`;
}
