// The figures, each with a note on what to look for; drawn twice, for wide pages and for phones.

import type { Advice } from "../../../cleaning/decision/advice.js";
import { causes } from "../../../figures/causes.js";
import { decision } from "../../../figures/decision.js";
import type { FigureData } from "../../../figures/figureData.js";
import { pair } from "../../../figures/pair.js";
import { residuals } from "../../../figures/residuals.js";
import { responseTrack } from "../../../figures/responseTrack.js";
import { deepThetaSalinity, thetaSalinity } from "../../../figures/thetaSalinity.js";
import { percent } from "../../../words/percent.js";
import { responseTable } from "../../../words/responseTable.js";
import { html, type Markup, nothing } from "../html.js";
import { shownFigure } from "../shownFigure.js";
import { responseSection } from "./responseSection.js";

export function figuresSection(data: FigureData, cast: string, advice: Advice): Markup {
  const responses = responseTable(data.casts.map(({ verdict }) => verdict));
  const bottles = data.casts.some((one) => one.bottles.length > 0);
  return html`${shownFigure(
    `Causes on cast ${cast}`,
    "The probability of each cause, for each cell. The filled bar leads.",
    (width) => causes(data, cast, width),
  )}
${shownFigure(
  "The decision",
  "Left: the expected loss of each intensity, in minutes of ship's time. The diamond is the work in minutes. Right: the probability that the film left at the next station is within the target.",
  (width) => decision(data, cast, width),
)}
${alternativesTable(advice)}
${
  bottles
    ? shownFigure(
        "Against the bottles",
        "Each mark is one bottle, compared with the reading of the cell when it closed. A film moves all marks of a cast to the negative side. A slope with depth is a response to pressure. Crosses were left out and are listed below.",
        (width) => residuals(data, width),
      )
    : nothing
}
${shownFigure(
  "The two cells against each other",
  "Both cells read the same water. So a jump is a change of one of the two cells. The line is the value in the verdicts.",
  (width) => pair(data, width),
)}
${shownFigure(
  "Response of the cells",
  "The delay of conductivity after temperature, and the strength of the thermal lag. A sound cell with a sound pump responds in the same way from cast to cast. A late or strong response is a sign of too little water through the cell. It shows before any salinity looks wrong.",
  (width) => responseTrack(data, width),
)}
${responses === undefined ? nothing : responseSection(responses)}
${shownFigure(
  `Cast ${cast} in potential temperature and salinity`,
  "The same comparison, without pressure. Where the legs coincide, nothing changed within the cast.",
  (width) => thetaSalinity(data, cast, width),
)}
${shownFigure(
  "Deep water",
  "The deep part of the last casts. Where deep water is the same from station to station, a drifting cell moves away from the others. Where it is not, this shows the sea and not the cell.",
  (width) => deepThetaSalinity(data, width),
)}`;
}

function alternativesTable({ alternatives, intensity }: Advice): Markup {
  return html`<div class="scroll" role="region" aria-label="Intensities compared" tabindex="0"><table>
<caption>The same in numbers</caption>
<thead><tr><th scope="col">intensity</th><th scope="col" class="number">minutes</th><th scope="col" class="number">within the target</th><th scope="col" class="number">expected loss</th><th scope="col">why not</th></tr></thead>
<tbody>${alternatives.map(
    (one) =>
      html`<tr class="${one.intensity === intensity ? "chosen" : ""}"><th scope="row">${one.intensity}</th><td class="number">${one.minutes.toFixed(0)}</td><td class="number">${percent(one.probabilityWithinTarget)}</td><td class="number">${one.expectedLoss.toFixed(0)}</td><td>${one.whyNot ?? "advised"}</td></tr>`,
  )}</tbody></table></div>`;
}
