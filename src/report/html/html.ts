// HTML as text: values in a template are escaped, unless they are markup already.
import { escapeText } from "../../figures/svg.js";

/** Text that is markup; only `html` and `figureMarkup` make it. */
export interface Markup {
  readonly markup: string;
}
type Filling = string | number | Markup | readonly Markup[];

/** @example html`<p>${"a < b"}</p>`.markup // "<p>a &lt; b</p>" */
export function html(strings: TemplateStringsArray, ...fillings: readonly Filling[]): Markup {
  const parts = fillings.map((filling, i) => `${written(filling)}${strings[i + 1]!}`);
  return { markup: `${strings[0]!}${parts.join("")}` };
}

/** A figure of src/figures, which has escaped its own texts. */
export function figureMarkup(svg: string): Markup {
  return { markup: svg };
}

export const nothing: Markup = { markup: "" };

/** A number and its unit stay on one line. */
function unbroken(text: string): string {
  return text.replace(/(\d) (%|ppm\b)/g, "$1\u00a0$2");
}

function written(filling: Filling): string {
  if (typeof filling === "string") return unbroken(escapeText(filling));
  if (typeof filling === "number") return String(filling);
  if ("markup" in filling) return filling.markup;
  return filling.map(({ markup }) => markup).join("\n");
}
