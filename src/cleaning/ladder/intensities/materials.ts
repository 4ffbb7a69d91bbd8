// Materials that several intensities share, and forbidden contacts.
import type { Figure, Solution } from "../intensity.js";
import { judged, usual } from "./figures.js";

/** One 60 ml syringe fills the cell and its plumbing (judgement). */
export const fill: Figure = judged(60, "ml");

export const never: readonly string[] = [
  "brushes, wire, cotton and anything else solid, which scratches the electrodes",
  "high pressure, because a hose or air line can break the cell",
];

const detergent = "phenol-free nonionic detergent";

/** @param percent by volume (common practice, no source) */
export function detergentOf(percent: number): Solution {
  return {
    kind: "detergent",
    name: `${detergent} in deionised water`,
    concentration: usual(percent, "% by volume"),
  };
}

export const undiluted = `${detergent}, undiluted`;
export const syringe = "syringe with soft tube that fits the plumbing, kept for this alone";
export const deionised = "deionised water";
export const gear = "gloves, sealed goggles, bucket and wipes";
