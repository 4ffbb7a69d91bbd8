// Rinse: done after every cast.
import type { Intensity } from "../intensity.js";
import { deionised, fill, never, syringe } from "./materials.js";
import { commonPractice } from "./sources.js";
import { connect, flushed, keepWet } from "./steps.js";

export const rinse: Intensity = {
  name: "rinse",
  deep: false,
  hands: "watch",
  summary: "Rinse the cell with deionised water",
  solutions: [{ kind: "water", name: "deionised water" }],
  minutes: { value: 5, unit: "minutes", source: commonPractice },
  fill,
  repeats: { value: 1, unit: "time", source: commonPractice },
  flush: { value: 3, unit: "fills", source: commonPractice },
  steps: [...connect, flushed, keepWet],
  worksAgainst: ["salt", "loose particles"],
  mustNotTouch: never,
  materials: [syringe, deionised],
};
