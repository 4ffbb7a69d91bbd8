// Why: the numbers of a verdict as one sentence for a person.
import type { CauseName } from "../../model/causeNames.js";
import type { Answer } from "../gather/answer.js";
import { salinityError } from "../salinityError.js";
import type { ChangeOfGain, Estimate, EvidenceSummary } from "../verdict.js";

/** What the sentences are made of, for one cell on one cast. */
export interface Grounds {
  readonly up: Estimate;
  readonly cleanGain: Estimate;
  readonly film: Estimate;
  readonly pressure: { readonly ppmPer1000dbar: number; readonly standardUncertainty: number };
  readonly change: ChangeOfGain;
  readonly evidence: readonly EvidenceSummary[];
  readonly target: number;
  /** Casts up to this one. */
  readonly castsSeen: number;
  /** What the thermometer beside the cell is off by, mK. */
  readonly thermometer: { readonly millikelvin: number; readonly standardUncertainty: number };
  /** How the cell answered; absent without scans. */
  readonly answer?: Answer;
}

export function because(cause: CauseName, grounds: Grounds): string {
  return sentences[cause](grounds);
}

const sentences: Readonly<Record<CauseName, (grounds: Grounds) => string>> = {
  sound: ({ up, target, evidence }) =>
    `The cell reads ${gain(up)}, against a target of ${target} in salinity${resting(evidence)}.`,
  fouling: ({ film, up, change, evidence }) =>
    `A film of ${gain(film)} on a gain of ${gain(up)} in all: fresh by the same factor in all water, ` +
    `${since(change)}${resting(evidence)}.`,
  transient: ({ up, evidence }) =>
    `The reading left and came back within the cast, and ended at ${gain(up)}${resting(evidence)}.`,
  "calibration-shift": ({ cleanGain, change, castsSeen, evidence }) =>
    `The clean cell reads ${gain(cleanGain)}, ` +
    (change.kind === "none"
      ? `steady over the ${castsSeen} ${castsSeen === 1 ? "cast" : "casts"} so far, as an old calibration does`
      : `${since(change)}, and cleaning would not move it`) +
    `${resting(evidence)}.`,
  "pressure-response": ({ pressure, up, evidence }) =>
    `The error grows with pressure, ${signed(pressure.ppmPer1000dbar)} ± ` +
    `${pressure.standardUncertainty.toFixed(0)} ppm per 1000 dbar, from ${gain(up)} at the surface${resting(evidence)}.`,
  "temperature-error": ({ thermometer: { millikelvin, standardUncertainty }, evidence }) =>
    `The thermometer beside the cell reads ${Math.abs(millikelvin).toFixed(1)} ± ${standardUncertainty.toFixed(1)} mK too ` +
    `${millikelvin > 0 ? "warm" : "cold"}: salinity is ` +
    `off by that, the cell is not${resting(evidence)}.`,
  "reference-error": ({ up, evidence }) =>
    evidence.some(({ line }) => line === "bottles")
      ? `This cast's bottles disagree with the cell (${lineNumbers(evidence, "bottles")}) while the other lines ` +
        `and the casts before put it at ${gain(up)}.`
      : `The laboratory run of the bottles before this cast is held to be off; the other lines put the cell at ${gain(up)}.`,
  "thermal-lag": ({ answer, evidence }) =>
    `The legs differ in the thermocline only, with opposite sign by leg${signsOf(answer)}: the wall of the cell keeps more ` +
    `heat than usual${resting(evidence)}.`,
  flow: ({ answer, evidence }) =>
    `The cell answers slowly, late or noisily${signsOf(answer)}, as with too little water through it: a pump, a clogged line, ` +
    `a seal${resting(evidence)}.`,
  water: ({ up, evidence }) =>
    `The legs differ (${lineNumbers(evidence, "legs")}) layer by layer and not by one factor, as the water does; ` +
    `the cell is put at ${gain(up)}.`,
  undetermined: ({ evidence }) =>
    evidence.length === 0
      ? "Nothing has been observed that speaks of this cell."
      : `No one pattern fits what was observed${resting(evidence)}.`,
};

/** "-98 ± 7 ppm (-0.0038 in salinity)". */
export function gain({ ppm, standardUncertainty }: Estimate): string {
  return (
    `${signed(ppm)} ± ${standardUncertainty.toFixed(0)} ppm ` +
    `(${salinityError(ppm).toFixed(4)} in salinity)`
  );
}

export function since(change: ChangeOfGain): string {
  const { kind, sinceCast, when, leg, pressure_dbar } = change;
  if (kind === "none" || sinceCast === undefined) return "with no change that stands out";
  const what = kind === "drift" ? "growing" : "there";
  if (when === "from the start") return `${what} since before the first cast`;
  if (when === "after") return `${what} since the work done after cast ${sinceCast}`;
  if (when === "before") return `${what} since before cast ${sinceCast}`;
  const known = leg !== undefined && pressure_dbar !== undefined;
  const place = known ? `, at about ${pressure_dbar.toFixed(0)} dbar on the ${leg} leg` : "";
  return `${what} since within cast ${sinceCast}${place}`;
}

function signed(value: number): string {
  return `${value > 0 ? "+" : ""}${value.toFixed(0)}`;
}

function signsOf(answer: Answer | undefined): string {
  if (answer === undefined) return "";
  const { lag, delay, noise } = answer.signs;
  const signs = [
    ...(lag === undefined
      ? []
      : [
          `thermal lag ${lag.value.toFixed(1)} ± ${lag.standardUncertainty.toFixed(1)} times its usual`,
        ]),
    ...(delay === undefined
      ? []
      : [
          `conductivity ${delay.value.toFixed(2)} ± ${delay.standardUncertainty.toFixed(2)} s later than usual`,
        ]),
    ...(noise === undefined ? [] : [`noise ${Math.exp(noise.value).toFixed(1)} times its usual`]),
  ];
  return signs.length === 0 ? "" : ` (${signs.join(", ")})`;
}

function lineNumbers(evidence: readonly EvidenceSummary[], line: EvidenceSummary["line"]): string {
  const found = evidence.find((summary) => summary.line === line);
  return found === undefined
    ? "no such line"
    : `${signed(found.ppm)} ± ${found.standardUncertainty.toFixed(0)} ppm from ${found.n}`;
}

/** What the verdict of this cast rests on, the lines with their counts. */
function resting(evidence: readonly EvidenceSummary[]): string {
  if (evidence.length === 0)
    return "; this cast brought no evidence of its own, so it rests on the casts before";
  const lines = new Map(evidence.map(({ line, n }) => [line, n]));
  return `; this cast rests on ${[...lines].map(([line, n]) => `${line} (${n})`).join(", ")}`;
}
