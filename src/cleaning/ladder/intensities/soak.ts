// Soak: stronger detergent, with time and agitation. No published cruise known to us shows that a soak alone restores a
// cell.
import type { Intensity } from "../intensity.js";
import { judged, usual } from "./figures.js";
import { deionised, detergentOf, fill, gear, never, syringe, undiluted } from "./materials.js";
import { connect, flushed, keepWet, refitOxygenSensor, spareOxygenSensor } from "./steps.js";

export const soak: Intensity = {
  name: "soak",
  deep: true,
  hands: "watch",
  summary: "Soak the cell in stronger detergent, agitated by syringe, and flush it",
  solutions: [detergentOf(1)],
  minutes: judged(30, "minutes"),
  oxygenSensorMinutes: judged(10, "minutes"),
  fill,
  soak: usual(5, "minutes"),
  strokes: judged(20, "strokes"),
  repeats: judged(2, "times"),
  flush: judged(5, "fills"),
  steps: [
    ...connect,
    spareOxygenSensor,
    {
      text: "Make up {volume} of detergent ({detergent}) for the cell in deionised water, warm not hot, from the undiluted stock.",
    },
    {
      text: "Fill the cell with {fill}, draw it back and forth by {strokes} of the syringe, let it stand {soak}, agitate it again and let it run out. Do this {repeats} in all.",
    },
    flushed,
    refitOxygenSensor,
    keepWet,
  ],
  worksAgainst: ["oil and grease", "slime", "residue of jellyfish"],
  mustNotTouch: [...never, "the oxygen sensor's membrane, if left to stand"],
  materials: [syringe, deionised, undiluted, gear],
};
