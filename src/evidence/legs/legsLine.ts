// The line `legs`: the up leg minus the down leg in the same water observes changes within the cast.
import type { LineResult } from "../../model/observation.js";
import { outerHeat } from "../../response/lag/lagPrior.js";
import type { EvidenceLine } from "../evidenceLine.js";
import { upperWater } from "./upperWater.js";

/**
 * The package carries water with it, and the flow through the cells differs between the legs. So the same water reads
 * differently on the two legs, by about 0.0003 in salinity and nearly alike on every cast (judgement). On one cast a film that
 * grows in the water looks the same.
 */
const wake = { ppm: 8, change_ppm: 1.5 };

export const legsLine: EvidenceLine<null, readonly LineResult[]> = {
  name: "legs",
  ofGain: true,
  shown: true,
  sharedErrors: [
    {
      // Difference between the waters of up leg and down leg; not zero only if a cause proposes it.
      name: "legsWater",
      unit: "ppm",
      evolution: { kind: "independent", variance: 0 },
    },
    {
      // The upper water changes in the time between the legs, for all cells alike: `upperWater`.
      name: "legsUpperWater",
      unit: "ppm",
      prior: { sd: upperWater.surface_ppm },
      evolution: { kind: "independent", variance: upperWater.surface_ppm ** 2 },
    },
    {
      // The same through the thermocline, where other water came between the legs; not zero only if a cause proposes it.
      name: "legsThermocline",
      unit: "ppm",
      evolution: { kind: "independent", variance: 0 },
    },
    {
      // Heat in the outer parts of the cells, as a factor of the lag of their walls: nearly the same on every cast. Bottles
      // show it too.
      name: "outerHeat",
      unit: "times",
      prior: { sd: outerHeat.share },
      evolution: { kind: "random-walk", variance: 0.1 ** 2 },
    },
    {
      // The effect of wake and flow, for all cells alike: `wake`.
      name: "legsWake",
      unit: "ppm",
      prior: { sd: wake.ppm },
      evolution: { kind: "random-walk", variance: wake.change_ppm ** 2 },
    },
  ],
  begin: null,
  read: ({ scans }) => scans.within.lines,
  observe: (_sources, _memory, lines = []) => ({ lines: inOneWater(lines), memory: null }),
};

/**
 * All cells of a package are in one water, and the water causes most differences between the legs. If the layers of two cells
 * were independent, this evidence would count twice.
 */
function inOneWater(lines: readonly LineResult[]): readonly LineResult[] {
  const cells = lines.filter(({ observations }) => observations.length > 0).length;
  if (cells < 2) return lines;
  return lines.map((line) => ({
    ...line,
    observations: line.observations.map((one) => ({ ...one, variance: cells * one.variance })),
  }));
}
