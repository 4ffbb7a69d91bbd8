// The deep water as a reference: salinity at potential temperature in the calm deep layer, compared with the cruise's own
// curve or with a table from the user. The value is the gain of the cell plus the difference of the water here from the
// curve. The tracker carries that difference from station to station.
import type { Cast, CellName } from "../../cast/cast.js";
import type { DeepReference } from "../../cast/deepReference.js";
import type { Legs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import { gainOf, type LineResult, type Observation } from "../../model/observation.js";
import { type CalmLayer, calmLayer } from "./calmLayer.js";
import { beginCurve, curveThrough, extendCurve, type RunningCurve } from "./deepCurve.js";
import { type DeepLegMean, layerMean } from "./deepLayerMean.js";
import { type DeepProfile, shallowest_dbar } from "./deepProfile.js";
import type { DeepDifference, DeepWaterStep } from "./deepWaterNoise.js";
import { notesOf } from "./deepWaterNotes.js";
import { type DeepWaterRead, deepWaterRead } from "./deepWaterRead.js";
import { type DeepLast, type GainByBottles, ownStep, tableStep } from "./deepWaterStep.js";

/** Memory from cast to cast: plain values. */
export interface DeepWaterMemory {
  /** The cruise's own curve; absent before the first deep cast, and with a table. */
  readonly running?: RunningCurve;
  /** Differences of neighbouring casts so far. */
  readonly differences: readonly DeepDifference[];
  /** The last cast that reached the layer. */
  readonly last?: DeepLast;
}

export const noDeepWaterYet: DeepWaterMemory = { differences: [] };

export interface DeepWaterOfCast {
  /** One for each cell; without observations if a note says why. */
  readonly lines: readonly LineResult[];
  /** For the tracker; absent without observations. */
  readonly step?: DeepWaterStep;
  readonly memory: DeepWaterMemory;
}

/** Errors of thermometer, gauge and cell that do not repeat from cast to cast, ppm (judgement; 0.15 mK alone is 4 ppm). */
const unrepeatable_ppm = 5;

/**
 * The deep-water observations of the cells on one cast, given the casts before. The first cast of a cruise without a table
 * is its own reference: its observations tie the level of the water to the gain, and carry no information alone.
 * @param cells     cells of the package; the first makes the curve
 * @param before    `noDeepWaterYet` for the first cast, then the result of the last call
 * @param reference a table of the expected water, if there is one
 * @param thin      precomputed by `thinLayers`, optional
 */
export function deepWaterEvidence(
  cast: Cast,
  legs: Legs,
  cells: readonly CellName[],
  before: DeepWaterMemory,
  reference?: DeepReference,
  thin = thinLayers(cast, legs),
): DeepWaterOfCast {
  return deepWaterOf(deepWaterRead(cast, cells, thin), cells, before, reference);
}

/**
 * The second half of `deepWaterEvidence`.
 * @param gain of the first cell by the bottles of this cast, if they are measured
 */
export function deepWaterOf(
  { cast, position, profiles }: DeepWaterRead,
  cells: readonly CellName[],
  before: DeepWaterMemory,
  reference?: DeepReference,
  gain?: GainByBottles,
): DeepWaterOfCast {
  const main = profiles.find(({ profile }) => profile.classes.length > 0)?.profile;
  if (main === undefined) {
    const why = `no water below ${shallowest_dbar} dbar, where it is calm enough to be a reference`;
    return silent(cast, cells, before, why);
  }
  const against = referenceFor(main, before, reference);
  if (typeof against === "string") return silent(cast, cells, before, against);
  const { curve, layer, begins } = against;
  const means = profiles.flatMap(({ cell, leg, profile }): DeepLegMean[] => {
    const mean = layerMean(profile.classes, layer, curve.curve);
    return mean === undefined ? [] : [{ ...mean, cell, leg }];
  });
  if (means.length === 0) return silent(cast, cells, before, "too few classes to compare");
  const last = begins ? undefined : before.last;
  const beside = { ...(position && { position }), ...(gain && { gain }) };
  const { step, difference } =
    reference === undefined
      ? ownStep(means, layer, beside, last, before.differences)
      : { step: tableStep(reference, means[0]!, last), difference: undefined };
  return {
    lines: cells.map((cell) => ({
      ...lineOf(cast, cell, notesOf(layer, main, begins, step)),
      observations: observationsOf(
        cast,
        means.filter((mean) => mean.cell === cell),
      ),
    })),
    step,
    memory: {
      ...(reference === undefined
        ? { running: begins ? curve : extendCurve(curve, main.classes, layer.weights) }
        : {}),
      differences:
        difference === undefined ? before.differences : [...before.differences, difference],
      last: {
        means,
        pressure_dbar: layer.pressure_dbar,
        ...beside,
      },
    },
  };
}

interface Against {
  readonly curve: RunningCurve;
  readonly layer: CalmLayer;
  /** Start the curve with this cast. */
  readonly begins: boolean;
}

/** The curve and the part of its layer on this cast, or the reason why there is none. */
function referenceFor(
  { classes }: DeepProfile,
  { running }: DeepWaterMemory,
  reference: DeepReference | undefined,
): Against | string {
  if (reference !== undefined) {
    const { potentialTemperature_C, salinity } = reference;
    const curve = { curve: curveThrough(potentialTemperature_C, salinity), held: [] };
    const layer = calmLayer(classes, curve);
    if (layer !== undefined) return { curve, layer, begins: false };
    return "the reference table does not contain the deep water of this cast";
  }
  if (running !== undefined) {
    const layer = calmLayer(classes, running);
    if (layer !== undefined) return { curve: running, layer, begins: false };
  }
  // No earlier cast has enough of this water: the curve starts here, or starts again.
  const curve = beginCurve(classes);
  const layer = calmLayer(classes, curve);
  if (layer !== undefined) return { curve, layer, begins: true };
  return "too thin a deep layer in which temperature rises steadily upwards";
}

/** Errors that both legs of a cell share are included as larger errors of each. */
function observationsOf(cast: string, means: readonly DeepLegMean[]): readonly Observation[] {
  const disagreement = betweenLegs(means);
  return means.map(({ cell, leg, value_ppm, variance_ppm2, water }) => ({
    line: "deep-water",
    cast,
    design: [gainOf(cell, leg), { shared: "deepWater", weight: 1 }],
    unit: "ppm",
    value: value_ppm,
    variance: variance_ppm2 + means.length * unrepeatable_ppm ** 2 + disagreement,
    pressure_dbar: water.pressure_dbar,
    water: {
      conductivity_mS_cm: water.conductivity_mS_cm,
      temperature_C: water.temperature_C,
    },
  }));
}

/**
 * Added variance if the legs differ in the same deep water by more than twice their errors, ppm squared: the layer was not
 * calm, or the cell responded slowly. The line `legs` observes a film within the cast better. Twice: judgement.
 */
function betweenLegs(means: readonly DeepLegMean[]): number {
  const [down, up] = (["down", "up"] as const).map((name) => means.find(({ leg }) => leg === name));
  if (down === undefined || up === undefined) return 0;
  const expected = down.variance_ppm2 + up.variance_ppm2 + 2 * unrepeatable_ppm ** 2;
  return Math.max(0, (up.value_ppm - down.value_ppm) ** 2 - 4 * expected) / 2;
}

function lineOf(cast: string, cell: CellName, notes: readonly string[]): LineResult {
  return { line: "deep-water", cast, cell, observations: [], leftOut: [], notes };
}

function silent(
  cast: string,
  cells: readonly CellName[],
  memory: DeepWaterMemory,
  why: string,
): DeepWaterOfCast {
  return { lines: cells.map((cell) => lineOf(cast, cell, [why])), memory };
}
