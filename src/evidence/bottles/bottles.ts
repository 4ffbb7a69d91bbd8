// Reference bottles: y = ln(C_ctd / C_ref), C_ref being the conductivity that the laboratory salinity
// has at the CTD's temperature and pressure. Observes the gain of the up leg.
//
// A bottle's error is its own, whichever cell it is held against. It is therefore used once, against
// the first cell that was read at closure; the other cell is tied to that one by the pair.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import { splitLegs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import {
  type DesignTerm,
  gainOf,
  type LineOfEvidence,
  type Observation,
} from "../../model/observation.js";
import { effectiveNumber } from "../../statistics/effectiveNumber.js";
import { outvoted } from "../../statistics/outvoted.js";
import { robustRegression } from "../../statistics/robustRegression.js";
import { atScale } from "./bottleNoise.js";
import {
  type BottleResidual,
  type BottleResiduals,
  bottleLabel,
  bottleResiduals,
} from "./bottleResiduals.js";
import { salinityGradients } from "./salinityGradients.js";

/** Beyond this many robust standard deviations a bottle leaked, tripped elsewhere or was mislabelled. */
const leaveOutBeyond = 4;
/** Below this an error is taken as normal; above, its variance grows in proportion (Huber 1964). */
const normalWithin = 2;
/** A slope with pressure is fitted beside where the bottles are this many and span this much. */
const slopeFrom = { bottles: 6, span_dbar: 800 };
/**
 * With fewer, counted by their weights, a stray bottle is told from a sound one by what most say, if at all. Three count
 * as 2.5 where the error of one is twice that of the others: it can still be the judge between them.
 */
const leastToJudge = 2.5;

/** A bottle with too few beside it to be judged by, and this far off, holds other water: 1 % of conductivity, ppm. */
const otherWater_ppm = 10_000;

/**
 * Bottles of one cast as observations of the gain error.
 * @param bottles those closed on this cast
 * @param cells   cells of the package, the one to hold the bottles against first
 * @param cast    its scans, for bottles without CTD readings of their own
 * @param scale   the cruise's bottle noise scale, from `bottleNoiseScale`
 * @returns the evidence, and the residuals within the cast from which the scale is learnt
 */
export function bottlesEvidence(
  castId: string,
  bottles: readonly Bottle[],
  cells: readonly CellName[],
  cast: Cast | undefined,
  scale: number,
): { readonly evidence: LineOfEvidence; readonly standardised: readonly number[] } {
  const thin = cast && thinLayers(cast, splitLegs(cast));
  const gradients = salinityGradients(bottles, cells, thin);
  return judgeBottles(castId, bottleResiduals(bottles, cells, cast, gradients), scale);
}

/** The second half of `bottlesEvidence`: strays left out, the others with their variances. */
export function judgeBottles(
  castId: string,
  { residuals: closures, leftOut: unusable, notes }: BottleResiduals,
  scale: number,
): { readonly evidence: LineOfEvidence; readonly standardised: readonly number[] } {
  const leftOut = [...unusable];
  const { z, degreesOfFreedom } = standardise(closures, scale);
  const alone = degreesOfFreedom === 0;
  const observations: Observation[] = [];
  for (const [i, closure] of closures.entries()) {
    const distance = Math.abs(z[i]!);
    if (alone && Math.abs(closure.residual) > otherWater_ppm) {
      const why = `${closure.residual.toFixed(0)} ppm, with too few beside it to be judged by: of other water`;
      leftOut.push({ what: bottleLabel(closure.bottle), why });
    } else if (distance > leaveOutBeyond) {
      leftOut.push({ what: bottleLabel(closure.bottle), why: stray(closure, distance, scale) });
    } else {
      const widen = Math.max(1, distance / normalWithin);
      const sd = atScale(closure.sigma, closure.laboratory, scale);
      observations.push(observation(castId, closure, sd ** 2 * widen));
    }
  }
  const correction = Math.sqrt(closures.length / Math.max(1, degreesOfFreedom));
  return {
    evidence: { line: "bottles", cast: castId, cell: "both", observations, leftOut, notes },
    standardised: degreesOfFreedom >= 2 ? z.map((value) => value * scale * correction) : [],
  };
}

/** Residuals about the cast's own robust centre (and slope with pressure), in standard deviations. */
function standardise(
  closures: readonly BottleResidual[],
  scale: number,
): { readonly z: readonly number[]; readonly degreesOfFreedom: number } {
  const weights = closures.map((closure) => 1 / closure.sigma ** 2);
  const residuals = closures.map((closure) => closure.residual);
  const sigma = closures.map((closure) => closure.sigma * scale);
  if (effectiveNumber(weights) < leastToJudge) {
    return { z: outvoted(residuals, sigma, leaveOutBeyond), degreesOfFreedom: 0 };
  }
  const pressures = closures.map((closure) => closure.bottle.pressure_dbar);
  const withSlope =
    closures.length >= slopeFrom.bottles &&
    Math.max(...pressures) - Math.min(...pressures) >= slopeFrom.span_dbar;
  const design = pressures.map((p) => (withSlope ? [1, p / 1000] : [1]));
  const fit = robustRegression(design, residuals, sigma);
  if (fit === undefined) return { z: closures.map(() => 0), degreesOfFreedom: 0 };
  return {
    z: fit.residuals.map((residual, i) => residual / sigma[i]!),
    degreesOfFreedom: fit.degreesOfFreedom,
  };
}

function observation(
  cast: string,
  { bottle, cell, residual, perWake, water }: BottleResidual,
  variance: number,
): Observation {
  return {
    line: "bottles",
    cast,
    design: bottleDesign(cell, perWake),
    unit: "ppm",
    value: residual,
    variance,
    pressure_dbar: bottle.pressure_dbar,
    water,
    bottle: bottle.bottle,
    ...(bottle.run === undefined ? {} : { run: bottle.run }),
  };
}

/**
 * The gain on the up leg, the standardisation error of the laboratory run, and water from below.
 * @param perWake what one dbar of wake does to it, ppm: a bottle that holds water from below shows this much more
 */
export function bottleDesign(cell: CellName, perWake: number): readonly DesignTerm[] {
  return [gainOf(cell, "up"), { shared: "run", weight: 1 }, { shared: "wake", weight: perWake }];
}

function stray({ residual, sigma }: BottleResidual, distance: number, scale: number): string {
  return (
    `${residual.toFixed(0)} ppm, ${distance.toFixed(1)} standard deviations (of ${(sigma * scale).toFixed(0)} ppm) ` +
    "from the cast's other bottles: leaked, tripped elsewhere or mislabelled"
  );
}
