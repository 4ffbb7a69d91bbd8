// The cleaning decision for one cell: from what is held of it to what to do before the next station.
import type { Instrument } from "../../cast/cruise.js";
import { type CauseName, causeNamed } from "../../causes/index.js";
import type { Recovery } from "../../model/recovery.js";
import { rungOf } from "../ladder/intensities.js";
import {
  cautionsOf,
  type Intensity,
  type Ladder,
  minutesFor,
  stepsFor,
} from "../ladder/intensity.js";
import { cleaningAction } from "./actions.js";
import type { Advice, Alternative } from "./advice.js";
import { type Asked, choose, type Outlook } from "./choose.js";
import { decisionBecause } from "./decisionBecause.js";
import { type Belief, type FilmLeft, filmLeft } from "./filmLeft.js";
import { type Costs, defaultCosts, expectedLoss } from "./loss.js";
import { leadingCause, probabilityMendable } from "./mendable.js";
import { percent, sensitivity } from "./sensitivity.js";
import { whyNot } from "./whyNot.js";

export type { Belief, BeliefComponent } from "./filmLeft.js";

/** Confidence with which the film left must be within the target, where none is asked for (common practice, no source). */
export const defaultConfidence = 0.9;

export interface Circumstances {
  /** Salinity accuracy wanted, PSS-78. */
  readonly target: number;
  /** The same as a gain error, ppm of conductivity. */
  readonly target_ppm: number;
  /** Probability with which the film left must be within the target. Default 0.9. */
  readonly confidence?: number;
  /** Minutes before the next cast that can be given to cleaning; no limit where absent. */
  readonly minutesAvailable?: number;
  readonly instrument: Instrument;
  readonly ladder: Ladder;
  /** What each cleaning leaves on this cell; see updateRecovery. */
  readonly recovery: Recovery;
  /**
   * Whether people trained in acid and in opening the instrument are aboard. Acid is advised only where true; an
   * exchange, always as work for trained hands, unless false.
   */
  readonly trainedHands?: boolean;
  /**
   * No deep clean where what cleaning mends is less probable than this. Default 0.5: a deep clean
   * rather for a film than for something else.
   */
  readonly leastMendable?: number;
  /**
   * A cleaning less likely than this to work on this cell is no longer tried. Default 0.6: a soak that failed once, or a
   * disinfect that failed twice, with nothing to set against it (judgement).
   */
  readonly leastTrust?: number;
  /** Prices behind `expectedLoss`. */
  readonly costs?: Costs;
}

/**
 * The least cleaning after which the film left at the next station is within the target, with the confidence asked
 * for and in the time there is. The clean gain is not asked about: correcting it is a matter of calibration.
 * @param belief a mixture whose weights sum to one
 * @throws RangeError where the weights do not, or a limit makes no sense
 */
export function decide(belief: Belief, circumstances: Circumstances): Advice {
  const { target, target_ppm, instrument, ladder, recovery, trainedHands } = circumstances;
  const asked: Asked = {
    confidence: circumstances.confidence ?? defaultConfidence,
    minutesAvailable: circumstances.minutesAvailable ?? Number.POSITIVE_INFINITY,
    probabilityMendable: Math.min(1, probabilityMendable(belief)),
    leastMendable: circumstances.leastMendable ?? 0.5,
    leastTrust: circumstances.leastTrust ?? 0.6,
  };
  check(belief, target_ppm, asked);
  const rungs = ladder.map((rung) => {
    const left = filmLeft(belief, recovery[rung.name], target_ppm);
    return { rung, left, outlook: outlookOf(rung, left, recovery, instrument, trainedHands) };
  });
  const outlooks = rungs.map(({ outlook }) => outlook) as [Outlook, ...Outlook[]];
  const choice = choose(outlooks, asked);
  const { chosen } = choice;
  const rung = rungOf(ladder, chosen.intensity);
  const left = rungs.find(({ outlook }) => outlook === chosen)!.left;
  const leading = leadingCause(belief);
  const growthAlone = rungs.at(-1)!.left.probabilityWithinTarget;
  const perPpm = target / target_ppm;
  return {
    intensity: chosen.intensity,
    deepClean: chosen.deep,
    action:
      choice.ground === "not mendable"
        ? `${causeNamed(leading.cause).action}${settleFilm(leading.cause, asked)}`
        : `${cleaningAction(choice, ladder)}${asLateAsPossible(growthAlone, asked)}`,
    minutes: chosen.minutes,
    steps: stepsFor(rung, instrument),
    materials: rung.materials,
    cautions: cautionsOf(rung),
    expectedResidual: {
      salinity: left.mean_ppm * perPpm,
      standardUncertainty: left.sd_ppm * perPpm,
      ppm: left.mean_ppm,
      probabilityWithinTarget: left.probabilityWithinTarget,
    },
    because: decisionBecause(belief, leading, choice, outlooks, asked, target),
    alternatives: outlooks.map((outlook): Alternative => {
      const why = whyNot(outlook, choice, asked);
      return {
        intensity: outlook.intensity,
        minutes: outlook.minutes,
        probabilityWithinTarget: outlook.probabilityWithinTarget,
        expectedLoss: expectedLoss(
          outlook.intensity,
          outlook.minutes,
          outlook.deep,
          outlook.probabilityWithinTarget,
          asked.probabilityMendable,
          circumstances.costs ?? defaultCosts,
        ),
        fits: why.fits,
        ...(why.reason === undefined ? {} : { whyNot: why.reason }),
      };
    }),
    sensitivity: sensitivity(outlooks, asked),
  };
}

function outlookOf(
  rung: Intensity,
  { probabilityWithinTarget }: FilmLeft,
  recovery: Recovery,
  instrument: Instrument,
  trainedHands: boolean | undefined,
): Outlook {
  const barred = barredBy(rung, instrument, trainedHands);
  return {
    intensity: rung.name,
    deep: rung.deep,
    hands: rung.hands,
    minutes: minutesFor(rung, instrument),
    probabilityWithinTarget,
    probabilityWorks: recovery[rung.name].probabilityWorks,
    ...(barred === undefined ? {} : { barred }),
  };
}

function barredBy(
  { hands, solutions }: Intensity,
  { noAcid }: Instrument,
  trainedHands: boolean | undefined,
): string | undefined {
  const acid = solutions.some(({ kind }) => kind === "acid");
  if (acid && noAcid === true) return "this cell must not see acid";
  if (acid && trainedHands !== true) {
    return "acid is for trained hands, and none are said to be aboard: have it done ashore";
  }
  if (hands === "trained" && trainedHands === false) return "no trained hands are aboard";
  return undefined;
}

/** Where another cause leads, but a film is too probable to be left open. */
function settleFilm(leading: CauseName, { probabilityMendable, confidence }: Asked): string {
  const asksAnyhow = leading === "fouling" || leading === "undetermined";
  if (asksAnyhow || probabilityMendable <= 1 - confidence) return "";
  return ` A film is ${percent(probabilityMendable)} probable: the verdict says what would decide it.`;
}

/** Where even a new cell would not stay within the target until then. */
function asLateAsPossible(growthAlone: number, { confidence }: Asked): string {
  if (growthAlone >= confidence) return "";
  return " What grows until the next station is by itself beyond the target: clean as late before it as can be.";
}

function check(belief: Belief, target_ppm: number, asked: Asked): void {
  const sum = belief.reduce((total, { weight }) => total + weight, 0);
  if (!(Math.abs(sum - 1) < 1e-6))
    throw new RangeError(`weights of a belief sum to 1, found ${sum}`);
  if (!(target_ppm > 0)) throw new RangeError(`a target is above 0 ppm, found ${target_ppm}`);
  const { confidence, minutesAvailable } = asked;
  if (!(confidence >= 0.5 && confidence < 1)) {
    throw new RangeError(`a confidence is from 0.5 to below 1, found ${confidence}`);
  }
  if (!(minutesAvailable >= 0)) {
    throw new RangeError(`minutes available are 0 or more, found ${minutesAvailable}`);
  }
}
