// Steps that several intensities share.
import type { Step } from "../intensity.js";

export const connect: readonly Step[] = [
  {
    text: "Switch the power off. Join a syringe and soft tube to the intake of the plumbing. Leave the outlet open.",
    when: "pumped",
  },
  {
    text: "Switch the power off. Join a syringe and soft tube to one end of the cell. Leave the other end open.",
    when: "free-flow",
  },
];

/** Detergent or hypochlorite must not stand in an in-line oxygen sensor (common practice, no source). */
export const spareOxygenSensor: Step = {
  text: "First take the oxygen sensor out of the line and bridge the gap with tube. Neither detergent nor hypochlorite may stand in it.",
  when: "oxygen sensor in line",
};
export const refitOxygenSensor: Step = {
  text: "Put the oxygen sensor back once the line is flushed.",
  when: "oxygen sensor in line",
};

export const flushed: Step = {
  text: "Flush with {flush} of {fill} of deionised water each, gently, by syringe. Never use pressure from a hose.",
};

/** Cells kept wet in fresh water between casts: cruise of 2022 [CruiseReports2022]. */
export const keepWet: Step = {
  text: "Leave the cell filled with deionised water and loosely capped until the next cast. Drain it instead where it could freeze.",
};
