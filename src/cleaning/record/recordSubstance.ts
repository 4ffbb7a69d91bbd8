// The substance in the cell and its strength, from the words of the record.
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import type { Substance } from "../chemistry/mixing.js";
import type { Solution } from "../ladder/intensity.js";

type Chemical = Exclude<Solution["kind"], "water">;
/** Any substance except water. */
export type Cleaner = Exclude<Substance, "water">;

/** Words that people write (common practice, no source). */
const words: Readonly<Record<Exclude<Cleaner, "other cleaner">, RegExp>> = {
  hypochlorite: /hypochlor|bleach|NaOCl|NaClO|javel|\bchlorine\b/i,
  acid: /\bacids?\b|\bHCl\b|vinegar|\b(?:citric|acetic|oxalic|phosphoric|muriatic)\b|descaler/i,
  detergent: /detergent|surfactant|soap|ethoxylate|polysorbate|washing.?up|dish.?wash/i,
  ammonia: /ammonia|ammonium hydroxide|(?:glass|window) cleaner/i,
  alcohol: /alcohol(?! ethoxylate)|ethanol|propanol|\bIPA\b|methylated/i,
  peroxide: /peroxide|\bH2O2\b/i,
};
const cleaners = Object.keys(words) as readonly (keyof typeof words)[];
/** Words for a substance that was not in it. */
const denied = /\b(?:no|not|without)\s+[\w-]+|\b[\w-]+-free\b/gi;

/** Cleaners of an entry, from its words, otherwise from the usual ones of its action; none for water. */
export function cleanersOf({ action, solution = "" }: MaintenanceEvent): readonly Cleaner[] {
  const said = solution.replaceAll(denied, " ");
  const named = cleaners.filter((kind) => words[kind].test(said));
  if (named.length > 0 || /water/i.test(said)) return named;
  if (action === "wash" || action === "soak") return ["detergent"];
  if (action === "disinfect") return ["hypochlorite"];
  return action === "descale" ? ["acid"] : [];
}

/** Cleaners for which the ladder has a strength. */
export function chemicalsOf(event: MaintenanceEvent): readonly Chemical[] {
  return cleanersOf(event).flatMap((kind) => (kind in factors ? [kind as Chemical] : []));
}

/** Conversion to % by volume, ppm of available chlorine, mol/l: by definition, in water of 1 kg/l. */
const factors: Readonly<Record<Chemical, Readonly<Record<string, number>>>> = {
  detergent: { "%": 1, ppm: 1e-4, "g/l": 0.1, "ml/l": 0.1 },
  hypochlorite: { "%": 10_000, ppm: 1, "mg/l": 1, "g/l": 1000 },
  acid: { "mol/l": 1, M: 1, N: 1, "mmol/l": 1e-3, mM: 1e-3 },
};
/**
 * What "1:100" may be parts of: detergent undiluted; household bleach of 5 % [WHO2014] up to the trade's 12.5 %. An acid
 * may be anything.
 */
const usualStock: Readonly<Partial<Record<Chemical, readonly [number, number]>>> = {
  detergent: [100, 100],
  hypochlorite: [50_000, 125_000],
};

/**
 * A strength as written, in the unit of the ladder for the chemical: the smallest and the largest possible meaning. "1:100"
 * is 1 part in 100 in all.
 * @returns undefined if it is not understood
 * @example strengthIn("0.1 %", "hypochlorite") // [1000, 1000]
 */
export function strengthIn(
  written: string,
  kind: Chemical,
): readonly [least: number, most: number] | undefined {
  const parts = partsIn(written);
  const stock = usualStock[kind];
  if (parts !== undefined) {
    return stock === undefined ? undefined : [stock[0] * parts, stock[1] * parts];
  }
  const found = /(\d+(?:[.,]\d+)?)\s*(%|(?:ppm|mg\/l|g\/l|ml\/l|mol\/l|mmol\/l|mM|M|N)\b)/.exec(
    written,
  );
  const factor = found === null ? undefined : factors[kind][found[2]!];
  if (found === null || factor === undefined) return undefined;
  const strength = numberOf(found[1]!) * factor;
  return [strength, strength];
}

/** The share of "1:100", "1 in 100", "1+99" or "5 ml in 1 l". */
function partsIn(written: string): number | undefined {
  const amount = String.raw`(\d+(?:[.,]\d+)?)\s*(ml|l)?\b`;
  const found = new RegExp(String.raw`${amount}\s*(:|\+|in|to|per)\s*${amount}`, "i").exec(written);
  if (found === null) return undefined;
  const [, a, unitOfA, how, b, unitOfB] = found;
  // "5 to 10 %" is a range and "12:30" a time: a first number of 10 or more is not a ratio (judgement).
  const volumes = unitOfA !== undefined && unitOfB !== undefined;
  if (!volumes && (/to|per/i.test(how!) || numberOf(a!) >= 10)) return undefined;
  const [part, whole] = [numberOf(a!) * ml(unitOfA), numberOf(b!) * ml(unitOfB)];
  const share = part / (how === "+" ? part + whole : whole);
  return share > 0 && share <= 1 ? share : undefined;
}

function numberOf(text: string): number {
  return Number(text.replace(",", "."));
}

function ml(unit: string | undefined): number {
  // Millilitres of a litre, by definition.
  return unit?.toLowerCase() === "l" ? 1000 : 1;
}
