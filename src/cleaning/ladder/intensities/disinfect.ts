// Disinfect: hypochlorite against the living film, detergent between the fillings.
import type { Intensity } from "../intensity.js";
import { judged, usual } from "./figures.js";
import { deionised, detergentOf, fill, gear, never, syringe, undiluted } from "./materials.js";
import { connect, flushed, keepWet, refitOxygenSensor, spareOxygenSensor } from "./steps.js";

export const disinfect: Intensity = {
  name: "disinfect",
  deep: true,
  hands: "watch",
  summary: "Disinfect the cell by cycles of hypochlorite and detergent, with a flush after each",
  solutions: [
    {
      kind: "hypochlorite",
      name: "sodium hypochlorite in deionised water, made up the same day",
      // 100 ppm reliably killed three test bacteria [RutalaEtAl1998]; slime consumes hypochlorite, so more is used.
      concentration: usual(1000, "ppm available chlorine"),
    },
    detergentOf(1),
  ],
  minutes: judged(75, "minutes"),
  oxygenSensorMinutes: judged(10, "minutes"),
  fill,
  soak: usual(5, "minutes"),
  strokes: judged(20, "strokes"),
  // Up to five times is usual; three fit a watch.
  repeats: usual(3, "times"),
  flush: judged(5, "fills"),
  steps: [
    ...connect,
    spareOxygenSensor,
    {
      text: "Make sure that this line, tubing and waste bottle had no acid since the last thorough flush.",
    },
    {
      text: "For the cell, make up {volume} of hypochlorite ({hypochlorite}) in deionised water. In another bottle, make up {volume} of detergent ({detergent}) in deionised water.",
    },
    {
      text: "Flush the cell with water first. Loose slime uses up the hypochlorite.",
    },
    {
      text: "Fill the cell with {fill} of the hypochlorite, agitate by {strokes} and let it stand {soak}. Let it run out into its own waste bottle. Flush with water.",
    },
    {
      text: "Fill the cell with {fill} of the detergent and agitate by {strokes}. Let it run out into another waste bottle. Flush with water.",
    },
    { text: "Do both {repeats} in all, up to five times while slime still comes out." },
    flushed,
    refitOxygenSensor,
    keepWet,
  ],
  worksAgainst: ["slime", "bacterial film", "young growth"],
  mustNotTouch: [
    ...never,
    "acid, ammonia or any other cleaner, in the line or in the waste",
    "stainless steel and connectors, unless rinsed off",
    "the oxygen sensor",
  ],
  materials: [
    syringe,
    deionised,
    "sodium hypochlorite without additives, of known strength and date",
    undiluted,
    "two labelled bottles and two labelled waste bottles",
    gear,
  ],
};
