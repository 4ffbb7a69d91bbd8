// The two thermometers of a package against each other: which cell's salinity a wrong one would throw, and by how much,
// is for the causes to say. In mK.
import type { LineOfEvidence, Observation } from "../../model/observation.js";
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";
import type { PairDifference, PairDifferences } from "../pair/pairDifferences.js";

/** With fewer places the middle one says little. */
const fewest = 3;
/** What two healthy thermometers differ by from depth to depth, mK (judgement). */
const unevenness_mK = 0.3;

export function temperaturePairEvidence(cast: string, { byLeg }: PairDifferences): LineOfEvidence {
  return {
    line: "temperature-pair",
    cast,
    cell: "both",
    observations: (["down", "up"] as const).flatMap((leg) => observed(cast, byLeg[leg] ?? [])),
    leftOut: [],
    notes: [],
  };
}

/** The median over the leg: gradients throw half of the places at most. */
function observed(cast: string, places: readonly PairDifference[]): readonly Observation[] {
  if (places.length < fewest) return [];
  const differences = places.map(({ temperature }) => 1e3 * temperature);
  const middle = median(differences);
  // The median of normal values has pi/2 times the variance of their mean.
  const variance = (Math.PI / 2) * (madScale(differences, middle) ** 2 / differences.length);
  return [
    {
      line: "temperature-pair",
      cast,
      design: [
        { slot: { cell: "primary", slot: "thermometer" }, weight: 1 },
        { slot: { cell: "secondary", slot: "thermometer" }, weight: -1 },
        { shared: "thermometers", weight: 1 },
        { shared: "thermometersNow", weight: 1 },
      ],
      unit: "mK",
      value: middle,
      variance: variance + unevenness_mK ** 2,
      pressure_dbar: median(places.map(({ pressure }) => pressure)),
    },
  ];
}
