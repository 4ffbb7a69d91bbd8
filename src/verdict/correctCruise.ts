// Corrections after the cruise: the gain error of every cast from all casts together, including late bottles and later
// casts. A verdict uses only the past; a correction uses past and future.
import { greatest, group, sum } from "d3-array";
import type { CellName, LegName } from "../cast/cast.js";
import type { Cruise } from "../cast/cruise.js";
import type { CauseName } from "../causes/index.js";
import { estimate } from "../model/estimate.js";
import { observesGainOf } from "../model/observation.js";
import type { Estimate } from "../model/parts.js";
import type { PlaceOnCast } from "../model/placesOnCast.js";
import { defaultRecovery } from "../model/recovery.js";
import { standardWater, type Water, waterRead } from "../model/salinityError.js";
import { checkCruise } from "../read/checkCruise.js";
import { software } from "../software.js";
import { type CellView, cellView } from "../track/cellView.js";
import {
  type ErrorComponent,
  type ErrorMoments,
  errorMixture,
  errorMoments,
  errorSum,
  errorWeights,
} from "../track/errorComponent.js";
import { type SmoothedCruise, smooth } from "../track/smooth.js";
import type { TrackedInput } from "../track/tracked.js";
import type { AssessmentSettings } from "./assessmentSettings.js";
import { cruiseEvidence } from "./gather/cruiseEvidence.js";
import { cellsKnown, knownFromScans } from "./gather/knownCruise.js";
import { cruisePriors, priorsOfFitted } from "./history/cruisePriors.js";
import { judgementInputs } from "./judge/judgementInputs.js";

const correctionFormat = "foulcast-correction/1";

/** The errors of a cell and its thermometer on one leg. */
export interface LegCorrection {
  /** The gain at atmospheric pressure. */
  readonly surface: Estimate;
  /**
   * Gain (ppm), pressure response (ppm per 1000 dbar), thermometer (mK) and offset (uS/cm), in that order. Their sum is
   * corrected. Single terms may be uncertain although the sum is well known; the covariance contains this.
   */
  readonly terms: ErrorMoments;
}

export interface CellCorrection {
  /** Errors before and after `onset` if something came within the cast; otherwise of the two legs. */
  readonly down: LegCorrection;
  readonly up: LegCorrection;
  /** Place within the cast where the gain changed; the turn if absent. */
  readonly onset?: PlaceOnCast;
  /** Causes for the state of the cell on this cast, most probable first, summing to one. */
  readonly causes: readonly { readonly cause: CauseName; readonly probability: number }[];
}

export interface CastCorrection {
  readonly cast: string;
  readonly cells: Readonly<Partial<Record<CellName, CellCorrection>>>;
}

export interface CruiseCorrection {
  readonly format: typeof correctionFormat;
  readonly cruise: string;
  readonly casts: readonly CastCorrection[];
  /** Values carried over from the histories of the cells; absent if there are none. */
  readonly notes?: readonly string[];
  readonly software: { readonly name: string; readonly version: string };
}

/**
 * The gain errors of a whole cruise; every cast is smoothed with all casts.
 * @param settings `history`: results of earlier cruises for the cells, as for `assessCruise`; `onCast`: called after each
 *   cast's evidence is gathered
 * @throws RangeError if the cruise has no cast, BadInput if the readers would refuse its data
 */
export function correctCruise(
  given: Cruise,
  { history, onCast }: Pick<AssessmentSettings, "history" | "onCast"> = {},
): CruiseCorrection {
  const cruise = checkCruise(given);
  const known = knownFromScans(cruise);
  const cells = cellsKnown(known);
  const serials = judgementInputs(known, cells)[0]?.serials ?? [];
  const priors = cruisePriors(cruise, cells, serials, history);
  const inputs: TrackedInput[] = [];
  const waters: (Water | undefined)[] = [];
  for (const { tracked, water } of cruiseEvidence(cruise, priors.response)) {
    const { maintenanceAfter, start } = tracked;
    const { byCell } = priorsOfFitted(cruise, cells, maintenanceAfter, start, history);
    inputs.push({ ...tracked, fitted: byCell });
    waters.push(water);
    onCast?.(inputs.length, cruise.casts.length, tracked.cast);
  }
  const smoothed = smooth(cells, inputs, defaultRecovery, undefined, priors.byCell);
  const seen = new Set(
    cells.filter((cell) =>
      inputs.some(({ observations }) => observations.some((one) => observesGainOf(one, cell))),
    ),
  );
  return {
    format: correctionFormat,
    cruise: cruise.name,
    casts: cruise.casts.map(({ id }, i) => ({
      cast: id,
      cells: Object.fromEntries(
        cells.map((cell) => [
          cell,
          cellCorrection(
            smoothed,
            id,
            cell,
            waters[i],
            seen.has(cell) ? undefined : "undetermined",
          ),
        ]),
      ),
    })),
    ...(priors.notes.length === 0 ? {} : { notes: priors.notes }),
    software,
  };
}

/**
 * @param water  the deepest of the cast, if known
 * @param unseen the cause for a cell that was never observed
 */
function cellCorrection(
  smoothed: SmoothedCruise,
  cast: string,
  cell: CellName,
  water: Water | undefined,
  unseen: CauseName | undefined,
): CellCorrection {
  const leg = (name: LegName) => legCorrection(smoothed.error(cast, cell, name), water);
  const view = cellView(smoothed.layout, smoothed.atEnd.hypotheses, cell);
  const onset = onsetIn(view, cast);
  return {
    down: leg("down"),
    up: leg("up"),
    ...(onset === undefined ? {} : { onset }),
    causes:
      unseen === undefined
        ? [...smoothed.causes(cast, cell)]
            .map(([cause, probability]) => ({ cause, probability }))
            .sort((a, b) => b.probability - a.probability)
        : [{ cause: unseen, probability: 1 }],
  };
}

function legCorrection(
  components: readonly ErrorComponent[],
  water: Water = standardWater,
): LegCorrection {
  const { mean, covariance } = errorMoments(components);
  // An improbable outlying hypothesis moves the mean, so the gain is shifted: the sum in the deepest water becomes the
  // `estimate`.
  const weights = errorWeights(waterRead(water));
  const shift =
    estimate(errorMixture(components, weights)).ppm - errorSum({ mean, covariance }, weights).mean;
  const [gain, ...others] = mean;
  return {
    surface: estimate(errorMixture(components, [1, 0, 0, 0])),
    terms: { mean: [gain! + shift, ...others], covariance },
  };
}

/** Place within this cast where a film came, from the most probable event history; undefined if that has none here. */
function onsetIn(view: CellView, cast: string): PlaceOnCast | undefined {
  const places = view.eventsByHypothesis().map(({ events, weight }) => {
    const since = events.film?.since;
    const place = since?.cast === cast && since.when === "within" ? since.place : undefined;
    return { place, weight };
  });
  const groups = [...group(places, ({ place }) => JSON.stringify(place ?? null)).values()];
  return greatest(groups, (alike) => sum(alike, ({ weight }) => weight))![0]!.place;
}
