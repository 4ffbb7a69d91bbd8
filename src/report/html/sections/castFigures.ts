// The cast itself: both cells and both legs against pressure, and the difference of the legs.
import type { FigureData } from "../../../figures/figureData.js";
import { legs } from "../../../figures/legs.js";
import { profiles } from "../../../figures/profiles.js";
import { html, type Markup, nothing } from "../html.js";
import { shownFigure } from "../shownFigure.js";

export function castFigures(data: FigureData, cast: string): Markup {
  const drawn = [
    shownFigure(
      `Cast ${cast} as it was read`,
      "Salinity and potential temperature against pressure, every cell and leg. Where all lines coincide, the cells agree and nothing changed within the cast.",
      (width) => profiles(data, cast, width),
    ),
    shownFigure(
      `The legs of cast ${cast}`,
      "Up leg minus down leg at the same water. A film that came within the cast separates the legs above its place. An older film is on both legs and does not show here.",
      (width) => legs(data, cast, width),
    ),
  ];
  return html`<section aria-labelledby="cast">
<h2 id="cast">The cast</h2>
${drawn.every(({ markup }) => markup === "") ? html`<p>Cast ${cast} has no scans to draw.</p>` : nothing}
${drawn}
</section>`;
}
