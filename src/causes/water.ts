// Water: the ocean differed between the legs or between the stations. Between the legs (a front, an interleaving layer) it
// changes only the comparison of the legs, of both cells alike, in total and layer by layer, with either sign. Between the
// stations it changes only the deep-water comparison.

import { thermocline_dbar } from "../evidence/legs/upperWater.js";
import type { Cause, Proposal } from "../model/cause.js";
import type { Observation, Onset } from "../model/observation.js";
import { gainWords, lineNumbers } from "./sentences.js";

/** Differences of water between legs some tens of minutes apart, ppm, in addition to the usual ones (judgement). */
const sizes = [
  { share: 0.3, sd: 100, extraVariance: onLegs(0) },
  { share: 0.4, sd: 60, extraVariance: onLegs(60) },
  { share: 0.3, sd: 300, extraVariance: onLegs(300) },
];
const chance = 0.05;
/** Rain or the tide on a slope may change the salinity of the mixed layer by hundredths during a cast (judgement). */
const mixedLayer = { chance: 0.06, extraVariance: onLegs(600, 100) };
/**
 * At a front, or where the tide moves it, the water changes through the whole thermocline: by thousandths to hundredths in
 * salinity near the surface and less with depth. A part of that varies from layer to layer (judgement). The deep water stays the
 * same.
 */
const otherThermocline = [
  { chance: 0.03, sd: 200, extraVariance: onLegs(60, thermocline_dbar) },
  { chance: 0.03, sd: 600, extraVariance: onLegs(300, thermocline_dbar) },
];
/**
 * Other water may end at a sharp front. In both cells that looks like a film of one size that came at the front, and it is commoner
 * (judgement). With one cell the two cannot be told apart, so it is not offered: such a film would be told too small.
 */
const sharpFront = { chance: 0.01, sd: 600, extraVariances: [onLegs(0), whereLayersDiffer] };
const doubts = [{ cause: "water" }];

/**
 * The deep water of another basin, or across a front: some thousandths in salinity (judgement). Hundredths are so rare that
 * only bottles can make them probable: before bottles, an equal film in both cells is as probable. Other water stays on the next
 * casts, so it is no doubt about this one. It may come with any event of a cell.
 */
const otherDeepWater = [
  { prior: 0.02, sd: 100 },
  { prior: 0.0001, sd: 1000 },
].map(
  ({ prior, sd }): Proposal => ({
    prior,
    coefficients: [{ acts: [{ shared: "deepWater", weight: 1 }], sd }],
    doubts: [],
  }),
);

export const water: Cause<"water"> = {
  name: "water",
  isTemporary: true,
  isCorrectedOnly: true,
  propose: ({ cells, lines, onsets }) => [
    ...(cells.length > 1 ? atFront(Object.values(onsets)[0]) : []),
    ...(lines.has("deep-water") ? otherDeepWater : []),
    ...(lines.has("legs")
      ? [
          ...sizes.map(
            ({ share, sd, extraVariance }): Proposal => ({
              prior: chance * share,
              coefficients: [{ acts: [{ shared: "legsWater", weight: 1 }], sd }],
              extraVariance,
              doubts,
            }),
          ),
          {
            prior: mixedLayer.chance,
            coefficients: [],
            extraVariance: mixedLayer.extraVariance,
            doubts,
          },
          ...otherThermocline.map(
            ({ chance, sd, extraVariance }): Proposal => ({
              prior: chance,
              coefficients: [{ acts: [{ shared: "legsThermocline", weight: 1 }], sd }],
              extraVariance,
              doubts,
            }),
          ),
        ]
      : []),
  ],
  matches: ({ isDoubted }) => isDoubted("water"),
  sentence: ({ evidence, up }) =>
    `The legs differ (${lineNumbers(evidence, "legs")}), but not by one factor: the water differs. The gain error is ${gainWords(up)}.`,
  action:
    "The water differed between the legs. Compare them in deep, even water at the next station.",
};

/** Other water above the place where the scans show a change, if they show one. */
function atFront(onset: Onset | undefined): readonly Proposal[] {
  if (onset === undefined) return [];
  return sharpFront.extraVariances.map((extraVariance) => ({
    prior: sharpFront.chance * (1 - onset.probabilityDown),
    coefficients: [{ acts: [{ shared: "legsWater", weight: 1 }], sd: sharpFront.sd }],
    extraVariance,
    places: { front: { shared: "legsWater", above_dbar: onset.pressure_dbar } },
    doubts,
  }));
}

/** Layers that scatter much also change much between the legs, with a standard deviation of variance / 100 ppm (judgement). */
function whereLayersDiffer({ line, variance }: Observation): number {
  return line === "legs" ? (variance / 100) ** 2 : 0;
}

/** @param decay_dbar the depth over which it falls to 1/e; if absent it is the same everywhere */
function onLegs(sd_ppm: number, decay_dbar = Number.POSITIVE_INFINITY) {
  return ({ line, pressure_dbar }: Observation) =>
    line === "legs" ? (sd_ppm * Math.exp(-pressure_dbar / decay_dbar)) ** 2 : 0;
}
