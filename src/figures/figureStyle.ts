// Stylesheet with which a page colours its figures: light, dark, and print.
import { dark, light, type Palette } from "./palette.js";

const names = Object.keys(light) as readonly (keyof Palette)[];

const variables = (palette: Palette) => names.map((name) => `--${name}:${palette[name]}`).join(";");

/**
 * CSS for a page that holds figures: they then follow its light or dark setting. Figures carry the light colours themselves;
 * by these classes they take those of the page.
 */
export const figureStyle = `
:root{color-scheme:light dark;${variables(light)}}
@media (prefers-color-scheme:dark){:root{${variables(dark)}}}
@media print{:root{color-scheme:light;${variables({ ...light, ground: "#ffffff" })}}}
${names.map((name) => `.fill-${name}{fill:var(--${name})}.stroke-${name}{stroke:var(--${name})}`).join("\n")}
`;
