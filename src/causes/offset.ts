// Offset: the cell reads too much or too little by the same amount in all water and in air. The reason is its electronics,
// or a conducting path outside the bore. A film has no such effect, and cleaning does not help.
import type { Cause } from "../model/cause.js";
import { withEvent } from "../model/eventHistory.js";
import { lastingStep, onsetOfStep } from "./lastingStep.js";
import { goodCalibration } from "./limits.js";
import { evidenceSentence } from "./sentences.js";

/** A stray path or a faulty input is off by some uS/cm (judgement). */
const sd_uS_cm = 3;
/**
 * Rarer than a film. Rarer still at the start, because sound cells are slightly non-linear, which looks like an offset
 * (judgement).
 */
const chance = 0.0004;
/**
 * Smallest offset that is named, uS/cm: 0.001 in salinity at 40 mS/cm, half of the WOCE accuracy requirement
 * [McTaggartEtAl2010].
 */
const leastOffset_uS_cm = 1;

const name = "offset";

export const offset: Cause<"offset"> = {
  name,
  // Judgement: see `chance`.
  initialStates: [{ prior: 0.0005, ...goodCalibration, offsetSd: sd_uS_cm }],
  initialEvents: (since) => withEvent({}, name, since),
  propose: (context) => lastingStep(context, name, { slot: "offset", chance, sd: sd_uS_cm }),
  matches: ({ mean }) => Math.abs(mean("offset")) > leastOffset_uS_cm,
  since: (events) => onsetOfStep(events, name),
  sentence: (grounds) => {
    const { value, standardUncertainty } = grounds.offset;
    return (
      `The cell reads ${Math.abs(value).toFixed(1)} ± ${standardUncertainty.toFixed(1)} uS/cm too ` +
      `${value > 0 ? "much" : "little"} in all water and in air. ${evidenceSentence(grounds)}`
    );
  },
  action:
    "More cleaning does not help. Drain the cell, read it in air and check its connectors. Subtract the offset. If it changes, fit the spare.",
};
