// Wording of cells, cleanings and probabilities in the decision.
import type { CellName } from "../../cast/cast.js";
import { type IntensityName, intensityNames } from "../../cast/maintenance.js";
import { capitalised } from "../../causes/sentences.js";

const nouns: Readonly<Record<IntensityName, string>> = {
  rinse: "a rinse",
  wash: "a wash",
  soak: "a soak",
  disinfect: "a disinfect",
  descale: "a descale",
  exchange: "the spare",
};

/** "a soak"; for an exchange "the spare". */
export function noun(intensity: IntensityName): string {
  return nouns[intensity];
}

const pastParticiples: Readonly<Record<IntensityName, string>> = {
  rinse: "rinsed",
  wash: "washed",
  soak: "soaked",
  disinfect: "disinfected",
  descale: "descaled",
  exchange: "exchanged",
};

/** Done to every cell, whatever its cause. */
export const usualRinse = "Rinse the cell as after every cast.";

/** A cleaning that failed on the film, and the cast that it followed. */
export interface FailedCleaning {
  readonly intensity: IntensityName;
  readonly afterCast: string;
}

/** "soaked after cast 193, disinfected after cast 195"; of repeated ones the last; undefined if there are none. */
export function triedWords(failed: readonly FailedCleaning[]): string | undefined {
  const last = intensityNames.flatMap((name) => {
    const found = failed.findLast(({ intensity }) => intensity === name);
    return found === undefined ? [] : [found];
  });
  if (last.length === 0) return undefined;
  return last
    .map(({ intensity, afterCast }) => `${pastParticiples[intensity]} after cast ${afterCast}`)
    .join(", ");
}

/** "the primary cell", "both cells". */
export function cellWords(cells: readonly CellName[]): string {
  return cells.length > 1 ? "both cells" : `the ${cells[0]} cell`;
}

/** The same sentence for these cells: "Fill the primary cell", or "Both cells: keep it moving". */
export function named(cells: readonly CellName[], sentence: string): string {
  return /\bthe cell\b/i.test(sentence)
    ? sentence
        .replaceAll(/\bthe cell\b/g, which(cells))
        .replaceAll(/\bThe cell\b/g, capitalised(which(cells)))
    : `${headed(cells)}${lowerFirst(sentence)}`;
}

/** A sentence written for some cells, changed to name others. */
export function renamed(
  sentence: string,
  from: readonly CellName[],
  to: readonly CellName[],
): string {
  return sentence.replaceAll(headed(from), headed(to)).replaceAll(which(from), which(to));
}

function which(cells: readonly CellName[]): string {
  return cells.length > 1 ? "each cell" : cellWords(cells);
}

function headed(cells: readonly CellName[]): string {
  return `${capitalised(cellWords(cells).replace(/^the /, ""))}: `;
}

/** Least probability at which a cell is called fouled, or clean (judgement: two to one). */
export const leastToCall = 2 / 3;

/** A probability for people: never "100 %" or "0 %". */
export function percent(probability: number): string {
  // No model of nature is more certain than this (judgement).
  if (probability > 0.99) return "over 99 %";
  return probability < 0.01 ? "under 1 %" : `${Math.round(100 * probability)} %`;
}

export function lowerFirst(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
