// Stylesheet for the figures of a page: light, dark, and print.
import { dark, light, type Palette } from "./palette.js";

const names = Object.keys(light) as readonly (keyof Palette)[];

const variables = (palette: Palette) => names.map((name) => `--${name}:${palette[name]}`).join(";");

/**
 * CSS for a page with figures, so that they follow its light or dark setting. Figures contain the light colours themselves;
 * with these classes they take those of the page.
 */
export const figureStyle = `
:root{color-scheme:light dark;${variables(light)}}
@media (prefers-color-scheme:dark){:root{${variables(dark)}}}
@media print{:root{color-scheme:light;${variables({ ...light, ground: "#ffffff" })}}}
${names.map((name) => `.fill-${name}{fill:var(--${name})}.stroke-${name}{stroke:var(--${name})}`).join("\n")}
`;
