// What would have changed the advice: the rule asked again with one thing different.
import { type Asked, choose, type Outlook } from "./choose.js";

/** Sentences, none where nothing near would change it. */
export function sensitivity(
  outlooks: readonly [Outlook, ...Outlook[]],
  asked: Asked,
): readonly string[] {
  return [
    moreTime(outlooks, asked),
    lessTime(outlooks, asked),
    lessConfidence(outlooks, asked),
    moreConfidence(outlooks, asked),
    moreLikelyFilm(outlooks, asked),
  ].filter((sentence) => sentence !== undefined);
}

type Sentence = (outlooks: readonly [Outlook, ...Outlook[]], asked: Asked) => string | undefined;

const moreTime: Sentence = (outlooks, asked) => {
  const now = chosenOf(outlooks, asked);
  const later = outlooks
    .map(({ minutes }) => minutes)
    .filter((minutes) => minutes > asked.minutesAvailable)
    .sort((a, b) => a - b)
    .find((minutes) => chosenOf(outlooks, { ...asked, minutesAvailable: minutes }) !== now);
  if (later === undefined) return undefined;
  const then = chosenOf(outlooks, { ...asked, minutesAvailable: later });
  const more = Math.ceil(later - asked.minutesAvailable);
  return `With ${more} minutes more it would be ${then.intensity}.`;
};

const lessTime: Sentence = (outlooks, asked) => {
  const now = chosenOf(outlooks, asked);
  if (now.minutes > asked.minutesAvailable) return undefined;
  // Minutes are whole enough that a thousandth of one is "less".
  const then = chosenOf(outlooks, { ...asked, minutesAvailable: now.minutes - 0.001 });
  if (then === now) return undefined;
  return `With less than ${now.minutes} minutes it would be ${then.intensity}.`;
};

const lessConfidence: Sentence = (outlooks, asked) => {
  const now = chosenOf(outlooks, asked);
  const lower = outlooks
    .map(({ probabilityWithinTarget }) => probabilityWithinTarget)
    .filter((probability) => probability < asked.confidence && probability >= 0.5)
    .sort((a, b) => b - a)
    .find((confidence) => chosenOf(outlooks, { ...asked, confidence }) !== now);
  if (lower === undefined) return undefined;
  const then = chosenOf(outlooks, { ...asked, confidence: lower });
  return `If ${percent(lower)} confidence were enough it would be ${then.intensity}.`;
};

const moreConfidence: Sentence = (outlooks, asked) => {
  const now = chosenOf(outlooks, asked);
  const limit = now.probabilityWithinTarget;
  if (limit < asked.confidence || limit > 0.995) return undefined;
  const then = chosenOf(outlooks, { ...asked, confidence: limit + 1e-9 });
  if (then === now) return undefined;
  return `If more than ${percent(limit)} confidence were asked for it would be ${then.intensity}.`;
};

const moreLikelyFilm: Sentence = (outlooks, asked) => {
  const { probabilityMendable, leastMendable } = asked;
  if (probabilityMendable >= leastMendable || probabilityMendable < 0.05) return undefined;
  const now = chosenOf(outlooks, asked);
  const then = chosenOf(outlooks, { ...asked, probabilityMendable: leastMendable });
  if (then === now) return undefined;
  return `Were a film at least ${percent(leastMendable)} probable (it is ${percent(probabilityMendable)}) it would be ${then.intensity}.`;
};

function chosenOf(outlooks: readonly [Outlook, ...Outlook[]], asked: Asked): Outlook {
  return choose(outlooks, asked).chosen;
}

export function percent(probability: number): string {
  const hundredths = 100 * probability;
  return hundredths > 99 && hundredths < 100 ? "over 99 %" : `${Math.round(hundredths)} %`;
}
