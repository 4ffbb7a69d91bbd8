// Exchange: fit the spare cell, send this one to calibration.
import type { Intensity } from "../intensity.js";
import { judged, usual } from "./figures.js";
import { deionised, fill, never, syringe } from "./materials.js";
import { flushed, keepWet } from "./steps.js";

export const exchange: Intensity = {
  name: "exchange",
  deep: true,
  hands: "trained",
  summary: "Fit the spare cell and send this one for calibration",
  solutions: [{ kind: "water", name: "deionised water" }],
  minutes: judged(90, "minutes"),
  fill,
  repeats: usual(1, "time"),
  flush: usual(3, "fills"),
  steps: [
    {
      text: "Switch the power off and disconnect. Write the serial numbers of both cells and the time in the maintenance record.",
    },
    {
      text: "Fit the spare by its maker's instructions. Clean, inspect and grease each connector and seal as they say.",
    },
    {
      text: "Check that the plumbing rises without a trap for air, and that the pump is bled.",
      when: "pumped",
    },
    flushed,
    keepWet,
    {
      text: "Enter the spare's calibration. Close extra bottles on the next cast to check it.",
    },
    {
      text: "Rinse the cell that came off. Plug it wet or dry as its maker says. Label it with what was seen.",
    },
  ],
  worksAgainst: [
    "faults that cleaning does not remove",
    "a cell that is worn, scratched or cracked",
  ],
  mustNotTouch: never,
  materials: [
    "the spare cell with its calibration",
    "seals and grease that its maker names",
    syringe,
    deionised,
  ],
};
