// The recommendation for an open verdict: among all options of the cruise, the least effort that is expected to settle it.
import type { CauseName } from "../../causes/index.js";
import { capitalised } from "../../causes/sentences.js";
import type { SamplingOutlook } from "./outlook.js";

/** An option, and the expected standing of the verdict afterwards. */
export interface Option {
  /** Text for a person: "4 bottles at 1850 dbar on the next cast". */
  readonly what: string;
  readonly outlook: SamplingOutlook;
  /** The expected readings under the two causes, as text; absent if there is nothing to say. */
  readonly expects?: string;
}

/** The two causes of the question, the more probable first. */
interface Question {
  readonly cell: string;
  readonly causes: readonly { readonly cause: CauseName; readonly probability: number }[];
}

/** An option that settles it with at least this probability is worthwhile; reported as 8 of 10 (judgement). */
export const enough = 0.75;
/** An option that settles it less often than this, and raises the leading probability by less than this, is useless (judgement). */
const nothing = { settles: 0.1, leading: 0.05 };

/**
 * @param options in order of effort, the least first; tried one by one until one is sufficient
 * @returns a sentence or two
 */
export function wouldDecide(question: Question, options: Iterable<Option>): string {
  const open = `Not settled for the ${question.cell} cell: ${inWords(question.causes)}.`;
  let best: Option | undefined;
  for (const option of options) {
    const { what, outlook, expects } = option;
    if (outlook.settles >= enough) {
      const why = expects === undefined ? "" : ` ${capitalised(expects)}.`;
      return `${open} ${capitalised(what)} would decide ${cases(outlook.settles)}.${why}`;
    }
    if (best === undefined || better(outlook, best.outlook)) best = option;
  }
  if (best === undefined) return `${open} Nothing that can be done now would decide.`;
  const { what, outlook } = best;
  const brings = `bring the likelier cause to ${percent(outlook.leading)} on average`;
  const likelier = question.causes[0]?.probability ?? 0;
  if (outlook.settles < nothing.settles && outlook.leading < likelier + nothing.leading) {
    return `${open} Nothing that can be done by the next cast would decide. ${capitalised(what)} would ${brings}.`;
  }
  return (
    `${open} No measurement before the next cast is certain to decide. The best is ${what}. ` +
    `It would decide ${cases(outlook.settles)} and ${brings}.`
  );
}

/** More effort must improve the result by more than the random error of the draws. */
function better(a: SamplingOutlook, b: SamplingOutlook): boolean {
  return (
    // Smaller differences are within the error of the draws (judgement).
    a.settles > b.settles + 0.05 || (a.settles > b.settles - 0.05 && a.leading > b.leading + 0.03)
  );
}

function inWords(causes: Question["causes"]): string {
  return causes.map(({ cause, probability }) => `${cause} (${percent(probability)})`).join(" or ");
}

function cases(share: number): string {
  // In words at the ends, where tenths would round to all or none (judgement).
  if (share >= 0.95) return "in nearly all cases";
  if (share < 0.05) return "in hardly any case";
  return `in ${Math.round(10 * share)} of 10 cases`;
}

function percent(probability: number): string {
  return `${(100 * probability).toFixed(0)} %`;
}
