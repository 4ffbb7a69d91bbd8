// The figures, each with what to look for; drawn twice, for wide pages and for phones.

import type { Advice } from "../../../cleaning/decision/advice.js";
import { causes } from "../../../figures/causes.js";
import { decision } from "../../../figures/decision.js";
import type { FigureData } from "../../../figures/figureData.js";
import { gainTrack } from "../../../figures/gainTrack.js";
import { legs } from "../../../figures/legs.js";
import { pair } from "../../../figures/pair.js";
import { residuals } from "../../../figures/residuals.js";
import { responseTrack } from "../../../figures/responseTrack.js";
import { deepThetaSalinity, thetaSalinity } from "../../../figures/thetaSalinity.js";
import { percent } from "../../../words/percent.js";
import { responseTable } from "../../../words/responseTable.js";
import { figureMarkup, html, type Markup, nothing } from "../html.js";
import { answersTable } from "./answersTable.js";

const [wide, narrow] = [912, 360];

export function figuresSection(data: FigureData, cast: string, advice: Advice): Markup {
  const answers = responseTable(data.casts.map(({ verdict }) => verdict));
  const bottles = data.casts.some((one) => one.bottles.length > 0);
  return html`<section aria-labelledby="figures">
<h2 id="figures">Figures</h2>
${shown(
  "The cell through the cruise",
  "The line is the gain error as it stood when each cast came up, with its 95 % band. Inside the tinted band the cell is within the target. Marks are what each line of evidence says alone; a dashed upright is a cleaning, a short tick a rinse; the open square is the next station if nothing is done.",
  (width) => gainTrack(data, width),
)}
${shown(
  `Causes on cast ${cast}`,
  "How probable each explanation is, for each cell. The filled bar leads.",
  (width) => causes(data, cast, width),
)}
${shown(
  "The decision",
  "Left, what each intensity is expected to cost, in minutes of ship's time, and as a diamond its hands-on minutes. Right, how probably the film left at the next station is within the target.",
  (width) => decision(data, cast, width),
)}
${alternativesTable(advice)}
${
  bottles
    ? shown(
        "Against the bottles",
        "Each mark is one bottle against what the cell read when it closed. A film moves all of a cast's marks alike to the negative side; a slope with depth is a response to pressure. Crosses were left out and are listed below.",
        (width) => residuals(data, width),
      )
    : nothing
}
${shown(
  "The two cells against each other",
  "Both cells saw the same water, so a jump is one of the two cells changing. The line is what the verdicts hold.",
  (width) => pair(data, width),
)}
${shown(
  "How the cells answered",
  "How long after temperature conductivity comes, and how strong the thermal lag of the cell is, on every cast whose scans tell. A sound cell with a sound pump answers alike from cast to cast; a late or strong answer is a sign of too little water through it, before any salinity looks wrong.",
  (width) => responseTrack(data, width),
)}
${answers === undefined ? nothing : answersTable(answers)}
${shown(
  `The legs of cast ${cast}`,
  "Up leg minus down leg at the same water. A film that came within the cast parts the legs above the place where it came; a film that was there before is on both legs and does not show here.",
  (width) => legs(data, cast, width),
)}
${shown(
  `Cast ${cast} in potential temperature and salinity`,
  "The same comparison as the water itself: where the legs lie on each other, nothing changed within the cast.",
  (width) => thetaSalinity(data, cast, width),
)}
${shown(
  "Deep water",
  "The deep part of the last casts. Where deep water is alike from station to station, a cell that drifts walks away from the others; where it is not, this shows the sea and not the cell.",
  (width) => deepThetaSalinity(data, width),
)}
</section>`;
}

function shown(name: string, caption: string, draw: (width: number) => string): Markup {
  const svg = draw(wide);
  if (svg === "") return nothing;
  return html`<figure><figcaption><b>${name}</b>${caption}</figcaption>
<div class="wide">${figureMarkup(svg)}</div><div class="narrow">${figureMarkup(draw(narrow))}</div></figure>`;
}

function alternativesTable({ alternatives, intensity }: Advice): Markup {
  return html`<div class="scroll" role="region" aria-label="Intensities held against each other" tabindex="0"><table>
<caption>The same in numbers</caption>
<thead><tr><th scope="col">intensity</th><th scope="col" class="number">minutes</th><th scope="col" class="number">within the target</th><th scope="col" class="number">expected loss</th><th scope="col">why not</th></tr></thead>
<tbody>${alternatives.map(
    (one) =>
      html`<tr class="${one.intensity === intensity ? "chosen" : ""}"><th scope="row">${one.intensity}</th><td class="number">${one.minutes.toFixed(0)}</td><td class="number">${percent(one.probabilityWithinTarget)}</td><td class="number">${one.expectedLoss.toFixed(0)}</td><td>${one.whyNot ?? "advised"}</td></tr>`,
  )}</tbody></table></div>`;
}
