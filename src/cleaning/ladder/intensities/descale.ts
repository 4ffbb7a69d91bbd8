// Descale: dilute acid against lime, by trained people only, ashore or on an open deck.
import type { Intensity } from "../intensity.js";
import { judged } from "./figures.js";
import { deionised, fill, gear, never, syringe } from "./materials.js";
import { connect, flushed, keepWet, refitOxygenSensor } from "./steps.js";

export const descale: Intensity = {
  name: "descale",
  deep: true,
  hands: "trained",
  summary: "Descale the cell with dilute acid",
  solutions: [
    {
      kind: "acid",
      name: "dilute hydrochloric acid, or the weaker acid that the cell's maker allows",
      // 1 ml of 0.1 mol/l dissolves 5 mg of lime (CaCO3 + 2 HCl); judgement that this is enough for a cell that still
      // measures.
      concentration: judged(0.1, "mol/l"),
    },
  ],
  minutes: judged(60, "minutes"),
  oxygenSensorMinutes: judged(10, "minutes"),
  fill,
  soak: judged(2, "minutes"),
  repeats: judged(1, "time"),
  flush: judged(10, "fills"),
  steps: [
    {
      text: "Do this only if lighter cleaning has failed and the cell may see acid. No hypochlorite may have been in the line today.",
    },
    ...connect,
    {
      text: "Take the oxygen sensor out of the line first and bridge the gap with tube.",
      when: "oxygen sensor in line",
    },
    {
      text: "Flush with fresh water until pH paper reads neutral. If it still smells of chlorine, stop.",
    },
    {
      text: "In a fume hood or upwind on the open deck, make up {volume} of dilute acid ({acid}) for the cell. Water first, then the acid, slowly.",
    },
    {
      text: "Fill the cell with {fill}, both ends open so that gas can leave. Let it stand {soak}. Let it run out into its own waste bottle. Do this {repeats} in all.",
    },
    flushed,
    { text: "Test the last of the flush with pH paper. Go on until it reads neutral." },
    refitOxygenSensor,
    keepWet,
    {
      text: "Check the cell against bottles before you trust it again. Acid can change the cell constant.",
    },
  ],
  worksAgainst: ["lime", "shells and tubes"],
  mustNotTouch: [
    ...never,
    "hypochlorite, in the line or in the waste, on the same day",
    "a cell that its maker does not allow acid in",
    "metal of the frame, pins, and seals that are not rated for acid",
    "a closed line, because the gas must be able to leave",
  ],
  materials: [
    syringe,
    deionised,
    "dilute acid, or acid stock with its safety data sheet",
    "pH paper",
    "a labelled bottle and a labelled waste bottle",
    "face shield, apron",
    gear,
  ],
};
