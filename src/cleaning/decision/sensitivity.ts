// Changes that would alter the advice: the rule applied again with one input changed.
import { choose, isClear, type Outlook, type Required } from "./choose.js";
import { noun, percent } from "./wording.js";

/** Sentences; none if no small change would alter it. */
export function sensitivity(
  outlooks: readonly [Outlook, ...Outlook[]],
  required: Required,
): readonly string[] {
  return [
    moreTime(outlooks, required),
    lessTime(outlooks, required),
    lessConfidence(outlooks, required),
    moreConfidence(outlooks, required),
    moreLikelyFilm(outlooks, required),
    clearerFilm(outlooks, required),
  ].filter((sentence) => sentence !== undefined);
}

type Sentence = (
  outlooks: readonly [Outlook, ...Outlook[]],
  required: Required,
) => string | undefined;

const moreTime: Sentence = (outlooks, required) => {
  const now = chosenOf(outlooks, required);
  const later = outlooks
    .map(({ minutes }) => minutes)
    .filter((minutes) => minutes > required.minutesAvailable)
    .sort((a, b) => a - b)
    .find((minutes) => chosenOf(outlooks, { ...required, minutesAvailable: minutes }) !== now);
  if (later === undefined) return undefined;
  const then = chosenOf(outlooks, { ...required, minutesAvailable: later });
  const more = Math.ceil(later - required.minutesAvailable);
  return `With ${more} minutes more it would be ${noun(then.intensity)}.`;
};

const lessTime: Sentence = (outlooks, required) => {
  const now = chosenOf(outlooks, required);
  if (now.minutes > required.minutesAvailable) return undefined;
  // Minutes are whole enough that a thousandth of one is "less" (judgement).
  const then = chosenOf(outlooks, { ...required, minutesAvailable: now.minutes - 0.001 });
  if (then === now) return undefined;
  return `With less than ${now.minutes} minutes it would be ${noun(then.intensity)}.`;
};

const lessConfidence: Sentence = (outlooks, required) => {
  const now = chosenOf(outlooks, required);
  const lower = outlooks
    .map(({ probabilityWithinTarget }) => probabilityWithinTarget)
    .filter((probability) => probability < required.confidence && probability >= 0.5)
    .sort((a, b) => b - a)
    .find((confidence) => chosenOf(outlooks, { ...required, confidence }) !== now);
  if (lower === undefined) return undefined;
  const then = chosenOf(outlooks, { ...required, confidence: lower });
  return `If ${percent(lower)} probability were enough, it would be ${noun(then.intensity)}.`;
};

const moreConfidence: Sentence = (outlooks, required) => {
  const now = chosenOf(outlooks, required);
  const limit = now.probabilityWithinTarget;
  // A probability above 99.5 % would be printed as 100 % (judgement).
  if (limit < required.confidence || limit > 0.995) return undefined;
  // Slightly beyond (judgement: far below the printed digits).
  const then = chosenOf(outlooks, { ...required, confidence: limit + 1e-9 });
  if (then === now) return undefined;
  return `If more than ${percent(limit)} probability were required, it would be ${noun(then.intensity)}.`;
};

const moreLikelyFilm: Sentence = (outlooks, required) => {
  const { probabilityRemovable, leastRemovable } = required;
  // A less probable film is not a close alternative (judgement).
  if (probabilityRemovable >= leastRemovable || probabilityRemovable < 0.05) return undefined;
  const now = chosenOf(outlooks, required);
  const then = chosenOf(outlooks, { ...required, probabilityRemovable: leastRemovable });
  if (then === now) return undefined;
  return `If a film were at least ${percent(leastRemovable)} probable (it is ${percent(probabilityRemovable)}), it would be ${noun(then.intensity)}.`;
};

const clearerFilm: Sentence = (outlooks, required) => {
  if (isClear(required)) return undefined;
  const now = chosenOf(outlooks, required);
  const then = chosenOf(outlooks, { ...required, probabilityClear: 1, probabilityReadsRight: 0 });
  if (then === now) return undefined;
  return `If a film beyond half the target were certain, it would be ${noun(then.intensity)}.`;
};

function chosenOf(outlooks: readonly [Outlook, ...Outlook[]], required: Required): Outlook {
  return choose(outlooks, required).chosen;
}
