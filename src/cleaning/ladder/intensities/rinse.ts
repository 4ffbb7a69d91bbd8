// Rinse: done after every cast.
import type { Intensity } from "../intensity.js";
import { usual } from "./figures.js";
import { deionised, fill, never, syringe } from "./materials.js";
import { connect, flushed, keepWet } from "./steps.js";

export const rinse: Intensity = {
  name: "rinse",
  deep: false,
  hands: "watch",
  summary: "Rinse the cell with deionised water",
  solutions: [{ kind: "water", name: "deionised water" }],
  minutes: usual(5, "minutes"),
  fill,
  repeats: usual(1, "time"),
  flush: usual(3, "fills"),
  steps: [...connect, flushed, keepWet],
  worksAgainst: ["salt", "loose particles"],
  mustNotTouch: never,
  materials: [syringe, deionised],
};
