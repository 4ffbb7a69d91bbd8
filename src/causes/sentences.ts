// Wording of numbers that the sentences of several causes use.

import type { CauseEstimates, EarlierCast } from "../model/causeEstimates.js";
import type { ChangeOfGain } from "../model/changeOfGain.js";
import type { EvidenceSummary } from "../model/evidenceSummary.js";
import type { Estimate } from "../model/parts.js";
import type { ResponseSigns } from "../model/responseSigns.js";
import { salinityError } from "../model/salinityError.js";

/** "-98 ± 7 ppm (-0.0038 in salinity)". */
export function gainWords(gain: Estimate): string {
  return `${ppmWords(gain)} (${salinityError(gain.ppm).toFixed(4)} in salinity)`;
}

/** "-98 ± 7 ppm". */
export function ppmWords({ ppm, standardUncertainty }: Omit<Estimate, "interval95">): string {
  return `${signed(ppm)} ± ${standardUncertainty.toFixed(0)} ppm`;
}

/** "+12", "-3", "0". */
export function signed(value: number): string {
  const whole = Math.round(value) || 0;
  return `${whole > 0 ? "+" : ""}${whole}`;
}

/** "present since before cast 005", "growing since cast 008, during the cast". */
function onsetWords(change: ChangeOfGain): string {
  const { kind, sinceCast, when, leg, pressure_dbar } = change;
  if (kind === "drift") return "growing";
  if (kind === "none" || sinceCast === undefined) return "with no change that stands out";
  const what = "present";
  if (when === "from the start") return `${what} since before the first cast`;
  if (when === "after") return `${what} since the work done after cast ${sinceCast}`;
  if (when === "before") return `${what} since before cast ${sinceCast}`;
  const known = leg !== undefined && pressure_dbar !== undefined;
  const place = known ? `, from about ${pressure_dbar.toFixed(0)} dbar on the ${leg} leg` : "";
  return `${what} since cast ${sinceCast}, during the cast${place}`;
}

/** An onset with a smaller probability is not reported: the other onsets together are more probable (judgement). */
const leastOnset = 0.5;

/**
 * The onset as in `since`. It is omitted if there was no change, if it is improbable, or if a later verdict called the cell
 * sound: onset and verdict would then contradict each other on one page.
 */
export function reportedOnset(
  change: ChangeOfGain,
  earlier: readonly EarlierCast[],
): string | undefined {
  const known = change.kind !== "none" && change.probability >= leastOnset;
  return known && !calledSoundSince(change, earlier) ? onsetWords(change) : undefined;
}

function calledSoundSince(
  { sinceCast, when }: ChangeOfGain,
  earlier: readonly EarlierCast[],
): boolean {
  const at = earlier.findIndex(({ cast }) => cast === sinceCast);
  if (at < 0) return false;
  return earlier.slice(when === "after" ? at + 1 : at).some(({ sound }) => sound);
}

/** "-31 ± 6 ppm from 12", for one line of this cast. */
export function lineNumbers(evidence: readonly EvidenceSummary[], line: string): string {
  const found = evidence.find((summary) => summary.line === line);
  return found === undefined ? "none on this cast" : `${ppmWords(found)} from ${found.n}`;
}

export function capitalised(sentence: string): string {
  return `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}`;
}

/** The name of each line of evidence in a sentence. */
const inWords: Readonly<Record<string, string>> = {
  bottles: "reference bottles",
  legs: "up leg against down leg",
  pair: "the other cell",
  "deep-water": "deep water",
  "air-zero": "reading in air",
  "pair-at-closures": "the other cell at bottle closures",
};

/** The name of a line of evidence in a sentence. */
export function lineInWords(line: string): string {
  return inWords[line] ?? line;
}

/** The lines of evidence of this cast, as a sentence. */
export function evidenceSentence({ evidence }: Pick<CauseEstimates, "evidence">): string {
  if (evidence.length === 0)
    return "This cast has no evidence of its own. The verdict rests on earlier casts.";
  const lines = [...new Set(evidence.map(({ line }) => lineInWords(line)))];
  const noBottles = evidence.some(({ line }) => line === "bottles")
    ? ""
    : " No bottles measured yet.";
  return `Evidence on this cast: ${lines.join(", ")}.${noBottles}`;
}

/** A sentence on the response of the cell relative to its usual, followed by a space; "" if it was not observed. */
export function signsInWords(signs: ResponseSigns | undefined): string {
  const { lag, delay, noise } = signs ?? {};
  const parts = [
    ...(lag === undefined
      ? []
      : [
          `thermal lag ${lag.value.toFixed(1)} ± ${lag.standardUncertainty.toFixed(1)} times usual`,
        ]),
    ...(delay === undefined
      ? []
      : [
          `conductivity ${delay.value.toFixed(2)} ± ${delay.standardUncertainty.toFixed(2)} s later than usual`,
        ]),
    ...(noise === undefined ? [] : [`noise ${Math.exp(noise.value).toFixed(1)} times usual`]),
  ];
  return parts.length === 0 ? "" : `${capitalised(parts.join(", "))}. `;
}
