// The up leg minus the down leg of a cast: changes within the cast. Observes g(up) - g(down). Older fouling is on both legs
// and cannot be seen here.
import { sum } from "d3-array";
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import { gainOf, type LineResult, type Onset } from "../../model/observation.js";
import type { MatchedLegs } from "../../response/match/matchLegs.js";
import { type ComparedLegs, compareLegs } from "./compareLegs.js";
import type { LegLayers } from "./legLayers.js";
import type { LegStep } from "./legsOnset.js";
import { onsetLeg } from "./onsetLeg.js";
import { shareOfThermocline } from "./upperWater.js";

/**
 * If the lag contributes more than this share of the uncertainty, a film cannot be told from the lag (judgement: half the
 * variance).
 */
const mostOfIt = 0.7;

/**
 * The evidence of the two legs of one cast for one cell.
 * @param compared precomputed by `compareLegs`, or `compareLegsAt` if the pair has placed a step; optional
 */
export function legsEvidence(
  cast: Cast,
  legs: Legs,
  cell: CellName,
  compared?: ComparedLegs,
): LineResult {
  const empty = { line: "legs", cast: cast.id, cell, observations: [], leftOut: [] } as const;
  if (cast.columns[cell] === undefined) return { ...empty, notes: ["the cast has no such cell"] };
  if (legs.down.length === 0 || legs.up.length === 0) {
    return { ...empty, notes: ["the cast has one leg only: there is nothing to compare"] };
  }
  const { matched, step, found, placed } = compared ?? compareLegs(cast, legs, cell);
  const onset =
    placed === undefined
      ? step && onsetOf(matched, found, step)
      : {
          pressure_dbar: placed.pressure_dbar,
          standardUncertainty_dbar: placed.standardUncertainty_dbar,
          probabilityDown: placed.probabilityDown,
        };
  const { layers, leftOut } = found;
  return {
    line: "legs",
    cast: cast.id,
    cell,
    observations: layers.map(
      ({ value_ppm, variance_ppm2, pressure_dbar, upperWater, outerHeat_ppm }) => ({
        line: "legs",
        onTheMove: true,
        cast: cast.id,
        design: [
          gainOf(cell, "up"),
          gainOf(cell, "down", -1),
          { shared: "legsWater", weight: 1 },
          { shared: "legsUpperWater", weight: upperWater },
          { shared: "legsThermocline", weight: shareOfThermocline(pressure_dbar) },
          { shared: "outerHeat", weight: outerHeat_ppm },
          { shared: "legsWake", weight: 1 },
        ],
        unit: "ppm",
        value: value_ppm,
        variance: variance_ppm2,
        pressure_dbar,
      }),
    ),
    leftOut: [...leftOut, ...unmatched(matched)],
    ...(onset === undefined ? {} : { onset }),
    notes: notesOf(matched, found),
  };
}

/** The pressure is that of the leg on which it came, because internal waves move the place between the legs. */
function onsetOf(matched: MatchedLegs, { series }: LegLayers, step: LegStep): Onset {
  const probabilityDown = onsetLeg(matched, series, step);
  let mean = 0;
  let square = 0;
  for (let k = 0; k < step.probability.length; k++) {
    const i = series.index[k]!;
    for (const [share, pressure] of [
      [probabilityDown, matched.pressureDown_dbar[i]!],
      [1 - probabilityDown, matched.pressureUp_dbar[i]!],
    ] as const) {
      mean += step.probability[k]! * share * pressure;
      square += step.probability[k]! * share * pressure ** 2;
    }
  }
  const variance = Math.max(0, square - mean ** 2) + matched.thickness_dbar ** 2;
  return {
    pressure_dbar: mean,
    standardUncertainty_dbar: Math.sqrt(variance),
    probabilityDown,
  };
}

function unmatched({ unmatched, difference_ppm }: MatchedLegs): LineResult["leftOut"] {
  if (unmatched === 0) return [];
  return [
    {
      what: `${unmatched} of ${unmatched + difference_ppm.length} thin layers`,
      why: "the temperature does not occur on the other leg",
    },
  ];
}

function notesOf(matched: MatchedLegs, { layers, lag, lagUncertainty_ppm }: LegLayers): string[] {
  const notes: string[] = [];
  if (layers.length === 0) {
    notes.push("too little of the same water on both legs to compare them");
    return notes;
  }
  const information = sum(layers, (layer) => 1 / layer.variance_ppm2);
  if (lagUncertainty_ppm > mostOfIt / Math.sqrt(information)) {
    notes.push(
      "a film cannot be distinguished from thermal lag here: both would shift the whole cast equally",
    );
  }
  // Three standard deviations above the usual (judgement).
  if (Math.abs(lag.timesUsual) > 1 + 3 * lag.timesUsualUncertainty) {
    notes.push(`thermal lag of the cell ${lag.timesUsual.toFixed(1)} times the usual was removed`);
  }
  if (matched.atPressure > matched.difference_ppm.length / 2) {
    notes.push("temperature is nearly uniform: most of the cast was compared at equal pressure");
  }
  if (matched.spikes > 0) notes.push(`scans left out as spikes: ${matched.spikes}`);
  return notes;
}
