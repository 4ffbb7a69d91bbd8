// SVG as text. Every attribute and every text goes through one escaping function. Colours are attributes, so that a figure
// is complete in any viewer. They are also class names, so that a page with its own stylesheet can replace them.
import { type Colour, light } from "./palette.js";

export type Attributes = Readonly<Record<string, string | number>>;

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};
// Not allowed in XML, or able to reverse the order of the text around it.
const unfit =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069\ufffe\uffff\p{Surrogate}]/gu;

/** Width of an average letter at 12 px (judgement); elements placed by it need not fit to the pixel. */
export const letter_px = 6.4;

/** Text made safe for the content and the attributes of HTML and of XML. */
export function escapeText(text: string): string {
  return text.replace(unfit, "\ufffd").replace(/[&<>"']/g, (found) => entities[found] ?? found);
}

/** @param children markup, already escaped */
export function element(
  name: string,
  attributes: Attributes,
  ...children: readonly string[]
): string {
  const written = Object.entries(attributes).map(
    ([key, value]) => ` ${key}="${typeof value === "number" ? short(value) : escapeText(value)}"`,
  );
  const inside = children.join("");
  return inside === ""
    ? `<${name}${written.join("")}/>`
    : `<${name}${written.join("")}>${inside}</${name}>`;
}

/** The hint of a mark. */
export function hint(text: string): string {
  return `<title>${escapeText(text)}</title>`;
}

/** The attributes that give an element its colours. */
export function paint(colours: { readonly fill?: Colour; readonly stroke?: Colour }): Attributes {
  const { fill, stroke } = colours;
  return {
    class: [
      ...(fill === undefined ? [] : [`fill-${fill}`]),
      ...(stroke === undefined ? [] : [`stroke-${stroke}`]),
    ].join(" "),
    fill: fill === undefined ? "none" : light[fill],
    ...(stroke === undefined ? {} : { stroke: light[stroke] }),
  };
}

/** Words at a place. */
export function label(
  words: string,
  x: number,
  y: number,
  more: Attributes = {},
  colour: Colour = "ink",
): string {
  return element("text", { x, y, ...paint({ fill: colour }), ...more }, escapeText(words));
}

/** A straight line. */
export function rule(
  from: readonly [number, number],
  to: readonly [number, number],
  stroke: Colour,
  more: Attributes = {},
): string {
  const [[x1, y1], [x2, y2]] = [from, to];
  return element("line", { x1, y1, x2, y2, ...paint({ stroke }), ...more });
}

/** A whole figure: its name and description are for people who use a screen reader. */
export function drawing(
  size: { readonly width: number; readonly height: number },
  name: string,
  description: string,
  content: string,
): string {
  const { width, height } = size;
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${short(width)} ${short(height)}`,
      width,
      height,
      role: "img",
      "font-family": "ui-sans-serif, system-ui, 'Segoe UI', 'Noto Sans', 'DejaVu Sans', sans-serif",
      "font-size": 12,
    },
    `<title>${escapeText(name)}</title><desc>${escapeText(description)}</desc>`,
    element("rect", { width, height, ...paint({ fill: "ground" }) }),
    content,
  );
}

/** To a tenth of a pixel. */
export function short(value: number): string {
  return String(Math.round(value * 10) / 10);
}
