// The lines of evidence, in the order in which a cast is observed and shown. A new line is a folder and a line here.
import { airLine } from "./air/airLine.js";
import { bottlesLine } from "./bottles/bottlesLine.js";
import { deepWaterLine } from "./deepWater/deepWaterLine.js";
import type { EvidenceLine } from "./evidenceLine.js";
import { legsLine } from "./legs/legsLine.js";
import { pairLine } from "./pair/pairLine.js";
import { thermometersLine } from "./thermometers/thermometersLine.js";

// biome-ignore lint/suspicious/noExplicitAny: each line has its own types of values read and of memory
export const evidenceLines: readonly EvidenceLine<any, any>[] = [
  bottlesLine,
  pairLine,
  thermometersLine,
  legsLine,
  deepWaterLine,
  airLine,
];

/** The errors that observations share, one slot of the state vector each. */
export const sharedErrors = evidenceLines.flatMap(({ sharedErrors }) => sharedErrors);
