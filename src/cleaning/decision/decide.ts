// The cleaning decision for one cell: from its posterior to the action before the next station.
import type { CellName } from "../../cast/cast.js";
import type { Instrument } from "../../cast/cruise.js";
import type { Recovery } from "../../model/recovery.js";
import { rungOf } from "../ladder/intensities.js";
import {
  cautionsOf,
  type Intensity,
  type Ladder,
  minutesFor,
  solutionsNeeded,
  stepsFor,
} from "../ladder/intensity.js";
import { actionOf } from "./actions.js";
import type { Advice, Alternative } from "./advice.js";
import { barredBy } from "./barredBy.js";
import { choose, type Outlook, type Required } from "./choose.js";
import { decisionBecause } from "./decisionBecause.js";
import { type Belief, filmLeft, untouched } from "./filmLeft.js";
import { type Costs, defaultCosts, expectedLoss } from "./loss.js";
import {
  filmGiven,
  ifRemovable,
  leadingCause,
  probabilityReadsRight,
  probabilityRemovable,
} from "./removable.js";
import { sensitivity } from "./sensitivity.js";
import { whyNot } from "./whyNot.js";
import { type FailedCleaning, named } from "./wording.js";

export type { Belief, BeliefComponent } from "./filmLeft.js";

/** Default of the required probability that the remaining film is within the target (common practice, no source). */
export const defaultConfidence = 0.9;

export interface Circumstances {
  readonly cell: CellName;
  /** The posterior before the rinses since the last evidence, for the question of a clear film; `belief` if absent. */
  readonly beforeRinse?: Belief;
  /** Whether the package has another cell: the steps then name the cell. */
  readonly oneOfTwo?: boolean;
  /** Required salinity accuracy, PSS-78. */
  readonly target: number;
  /** The same as a gain error, ppm of conductivity. */
  readonly target_ppm: number;
  /** Required probability that the remaining film is within the target. Default 0.9. */
  readonly confidence?: number;
  /** Minutes available for cleaning before the next cast; no limit if absent. */
  readonly minutesAvailable?: number;
  readonly instrument: Instrument;
  readonly ladder: Ladder;
  /** The share of the film that each cleaning leaves on this cell; see updateRecovery. */
  readonly recovery: Recovery;
  /** Cleanings that failed on the present film, in order of time; see failedOnFilm. */
  readonly failed?: readonly FailedCleaning[];
  /**
   * Whether people trained in acid and in opening the instrument are aboard. Acid is advised only if true. An exchange is
   * always advised as work for trained people, except if false.
   */
  readonly trainedHands?: boolean;
  /**
   * No deep clean if the causes that cleaning removes have a smaller probability than this. Default 0.5: a deep clean needs
   * a film that is more probable than not.
   */
  readonly leastRemovable?: number;
  /** Prices for `expectedLoss`. */
  readonly costs?: Costs;
}

/**
 * The lightest cleaning after which the film at the next station is within the target, with the required confidence and in
 * the available time. The clean gain does not count, because calibration corrects it.
 * @param belief a mixture whose weights sum to one
 * @throws RangeError if they do not, or if a limit is impossible
 */
export function decide(belief: Belief, circumstances: Circumstances): Advice {
  const { cell, target, target_ppm, instrument, ladder, failed = [] } = circumstances;
  const held = circumstances.beforeRinse ?? belief;
  const film = filmGiven(held, target_ppm);
  const required: Required = {
    confidence: circumstances.confidence ?? defaultConfidence,
    minutesAvailable: circumstances.minutesAvailable ?? Number.POSITIVE_INFINITY,
    probabilityRemovable: Math.min(1, probabilityRemovable(held)),
    leastRemovable: circumstances.leastRemovable ?? 0.5,
    probabilityClear: film.probabilityClear,
    probabilityReadsRight: probabilityReadsRight(held, target_ppm),
  };
  check(belief, target_ppm, required);
  const outlooks = ladder.map((rung) =>
    outlookOf(rung, belief, circumstances, required.probabilityRemovable),
  ) as [Outlook, ...Outlook[]];
  const choice = choose(outlooks, required);
  const { chosen } = choice;
  const rung = rungOf(ladder, chosen.intensity);
  const left = filmLeft(belief, circumstances.recovery[chosen.intensity], target_ppm);
  const leading = leadingCause(held);
  const perPpm = target / target_ppm;
  const forCell = (sentence: string) =>
    circumstances.oneOfTwo === true ? named([cell], sentence) : sentence;
  const late = choice.ground === "no film" ? "" : asLateAsPossible(outlooks.at(-1)!, required);
  return {
    cells: [cell],
    decidedBy: cell,
    intensity: chosen.intensity,
    deepClean: chosen.deep,
    action: `${actionOf(cell, choice, leading, ladder, required, failed.length > 0)}${late}`,
    minutes: chosen.minutes,
    steps: stepsFor(rung, instrument).map(forCell),
    materials: rung.materials,
    solutions: solutionsNeeded(rung).map((one) => ({ cells: [cell], ...one })),
    cautions: cautionsOf(rung),
    expectedResidual: {
      salinity: left.mean_ppm * perPpm,
      standardUncertainty: left.sd_ppm * perPpm,
      ppm: left.mean_ppm,
      probabilityWithinTarget: left.probabilityWithinTarget,
    },
    because: decisionBecause(choice, outlooks, required, {
      cell,
      film,
      leading,
      failed,
      target,
      target_ppm,
    }),
    alternatives: outlooks.map((outlook): Alternative => {
      const why = whyNot(outlook, choice, required);
      return {
        intensity: outlook.intensity,
        minutes: outlook.minutes,
        probabilityWithinTarget: outlook.probabilityWithinTarget,
        expectedLoss: outlook.expectedLoss,
        fits: why.fits,
        ...(why.reason === undefined ? {} : { whyNot: why.reason }),
      };
    }),
    sensitivity: sensitivity(outlooks, required).map(forCell),
  };
}

function outlookOf(
  rung: Intensity,
  belief: Belief,
  { recovery, instrument, trainedHands, target_ppm, costs = defaultCosts }: Circumstances,
  removable: number,
): Outlook {
  const { probabilityWorks, failed } = recovery[rung.name];
  const { probabilityWithinTarget } = filmLeft(belief, recovery[rung.name], target_ppm);
  const fouled = ifRemovable(belief);
  const beyond = 1 - filmLeft(belief, untouched, target_ppm).probabilityWithinTarget;
  const barred = barredBy(rung, instrument, trainedHands);
  const work = { intensity: rung.name, deep: rung.deep, minutes: minutesFor(rung, instrument) };
  return {
    ...work,
    hands: rung.hands,
    probabilityWithinTarget,
    probabilityBringsBack:
      fouled.length === 0
        ? probabilityWithinTarget
        : filmLeft(fouled, recovery[rung.name], target_ppm).probabilityWithinTarget,
    expectedLoss: expectedLoss(
      work,
      { withinTarget: probabilityWithinTarget, stays: beyond * (1 - probabilityWorks), removable },
      costs,
    ),
    ...(barred === undefined ? {} : { barred }),
    ...(failed === undefined ? {} : { failed }),
  };
}

/** A cell that would not stay within the target even if it were new. */
function asLateAsPossible(spare: Outlook, { confidence }: Required): string {
  if (spare.probabilityWithinTarget >= confidence) return "";
  return " Growth until the next station alone goes beyond the target. Clean as late before it as you can.";
}

function check(belief: Belief, target_ppm: number, required: Required): void {
  const sum = belief.reduce((total, { weight }) => total + weight, 0);
  // Probabilities rounded in a file still sum to one (judgement).
  if (!(Math.abs(sum - 1) < 1e-6))
    throw new RangeError(`weights of a belief sum to 1, found ${sum}`);
  if (!(target_ppm > 0)) throw new RangeError(`a target is above 0 ppm, found ${target_ppm}`);
  const { confidence, minutesAvailable } = required;
  if (!(confidence >= 0.5 && confidence < 1)) {
    throw new RangeError(`a confidence is from 0.5 to below 1, found ${confidence}`);
  }
  if (!(minutesAvailable >= 0)) {
    throw new RangeError(`minutes available are 0 or more, found ${minutesAvailable}`);
  }
}
