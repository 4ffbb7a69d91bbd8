// Flow: too little water goes through the cell, because of a failing pump, a clogged line or a broken seal. The response is
// late and noisy, and the cell wall warms or cools the water for longer. Deep calm water is read correctly. It looks like
// fouling, and cleaning does not help [CruiseReports2022]; a clogged line is cleared by hand.

import { evidenceSentence, signsInWords } from "./sentences.js";
import { slowResponseCause } from "./slowResponseCause.js";

/** Per cast and cell (judgement: pumps and lines fail more seldom than films come). */
const chance = 0.008;
/**
 * At a tenth to a half of the flow, the amplitude of the lag grows by half to five times [MorisonEtAl1994], the delay grows
 * by a tenth of a second to one, and the noise grows severalfold (judgement).
 */
const shifts = {
  lag: { mean: 1.5, sd: 1.5 },
  delay: { mean: 0.3, sd: 0.3 },
  noise: { mean: 1.3, sd: 0.6 },
};

export const flow = slowResponseCause("flow", {
  chance,
  shifts,
  isShownBy: () => true,
  sentence: (grounds) =>
    `Too little water goes through the cell: its response is late and noisy. ${signsInWords(grounds.signs)}${evidenceSentence(grounds)}`,
  action: "Check the pump and the plumbing: kinks, plugs left in, air, a worn pump seal.",
});
