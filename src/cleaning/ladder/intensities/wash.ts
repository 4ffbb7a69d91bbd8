// Wash: dilute detergent, and a flush.
import type { Intensity } from "../intensity.js";
import { judged } from "./figures.js";
import { deionised, detergentOf, fill, gear, never, syringe, undiluted } from "./materials.js";
import { connect, flushed, keepWet } from "./steps.js";

export const wash: Intensity = {
  name: "wash",
  deep: false,
  hands: "watch",
  summary: "Wash the cell with dilute detergent and flush it",
  solutions: [detergentOf(0.1)],
  minutes: judged(15, "minutes"),
  fill,
  strokes: judged(10, "strokes"),
  repeats: judged(2, "times"),
  flush: judged(5, "fills"),
  steps: [
    ...connect,
    {
      text: "Make up {volume} of detergent ({detergent}) for the cell in deionised water from the undiluted stock.",
    },
    {
      text: "Fill the cell with {fill} and draw it back and forth by {strokes} of the syringe. Let it run out. Do this {repeats} in all.",
    },
    {
      text: "Keep it moving: detergent may not stand in the oxygen sensor.",
      when: "oxygen sensor in line",
    },
    flushed,
    keepWet,
    {
      text: "Where oil lies on the water, wet the cell with the same solution just before the cast. It keeps oil off.",
      when: "no oxygen sensor in line",
    },
  ],
  worksAgainst: ["fresh oil", "young slime"],
  mustNotTouch: [...never, "the oxygen sensor's membrane, if left to stand"],
  materials: [syringe, deionised, undiluted, gear],
};
