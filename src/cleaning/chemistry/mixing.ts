// Forbidden mixtures, and the order of pouring.
import { DilutionRefused } from "./dilutionRefused.js";

export const substances = [
  "water",
  "detergent",
  "hypochlorite",
  "acid",
  "ammonia",
  "alcohol",
  "peroxide",
  "other cleaner",
] as const;
export type Substance = (typeof substances)[number];

/** The dangerous product of two substances. */
interface Product {
  readonly pair: readonly [Substance, Substance];
  readonly gives: string;
  readonly source: string;
}

const products: readonly Product[] = [
  {
    pair: ["hypochlorite", "acid"],
    gives: "chlorine, a poisonous gas, even when both are dilute",
    source: "[CDC1991]",
  },
  {
    pair: ["hypochlorite", "ammonia"],
    gives: "chloramines, which are poisonous gases",
    source: "Washington State Department of Health, advice on bleach",
  },
  {
    // In the five episodes the causes were cleaners that nobody recognised as an acid.
    pair: ["hypochlorite", "other cleaner"],
    gives: "chlorine or chloramines, which are poisonous gases: many cleaners hold acid or ammonia",
    source: "[CDC1991]",
  },
  {
    pair: ["hypochlorite", "alcohol"],
    gives: "chlorinated organic vapours, which are poisonous",
    source: "from memory",
  },
  {
    pair: ["hypochlorite", "peroxide"],
    gives: "oxygen and heat, at once, and can burst a bottle",
    source: "from memory",
  },
  {
    pair: ["acid", "other cleaner"],
    gives: "chlorine, a poisonous gas, if the cleaner holds bleach",
    source: "[CDC1991]",
  },
  { pair: ["acid", "ammonia"], gives: "heat and fumes, and spatter", source: "from memory" },
];

/** The product of the two, if known. */
export function productOf(a: Substance, b: Substance): Product | undefined {
  return a === b ? undefined : products.find(({ pair }) => pair.includes(a) && pair.includes(b));
}

/**
 * Check that a substance may be poured into a vessel. Returns nothing if it may.
 * @param held  content of the vessel, the line or the waste bottle, or what it was not rinsed of, in the order of pouring
 * @param added the substance to pour in
 * @throws DilutionRefused if the vessel holds a mixture already, for a dangerous mixture, for water into acid, and for any
 *   two cleaners together
 */
export function checkMixing(held: readonly Substance[], added: Substance): void {
  const cleaners = [...new Set(held)].filter((substance) => substance !== "water");
  const mixed = worst(cleaners.flatMap((a, i) => cleaners.slice(i + 1).map((b) => [a, b])));
  if (mixed !== undefined) throw alreadyMixed(...mixed);
  if (added === "water") {
    if (held[0] !== "acid") return;
    throw new DilutionRefused(
      "wrong order",
      "Never pour water into acid: it boils and spatters. Pour the water first and add the acid to it, slowly.",
      "common practice, no source",
    );
  }
  const [other] = cleaners.filter((substance) => substance !== added);
  if (other === undefined) return;
  const known = productOf(other, added);
  throw new DilutionRefused(
    "dangerous mixture",
    `Never pour ${added} onto ${other}, nor where unrinsed ${other} was.${
      known === undefined ? "" : ` Together they give ${known.gives}.`
    } Flush with plenty of fresh water and use another bottle.`,
    known?.source ?? customary,
  );
}

const customary = "common practice, no source";

/** Among several pairs one with a known product, otherwise the first. */
function worst(pairs: readonly Substance[][]): readonly [Substance, Substance] | undefined {
  const [first] = pairs;
  const found = pairs.find(([a, b]) => productOf(a!, b!) !== undefined) ?? first;
  return found === undefined ? undefined : [found[0]!, found[1]!];
}

function alreadyMixed(a: Substance, b: Substance): DilutionRefused {
  const known = productOf(a, b);
  const met = `${a} and ${b} have met in it already`;
  return known === undefined
    ? new DilutionRefused(
        "already mixed",
        `${capital(met)}. Add nothing and do not use it. Label it and set it aside in good ventilation. Ask people trained for it how to dispose of it.`,
        customary,
      )
    : new DilutionRefused(
        "already mixed",
        `Danger: ${met}. Together they give ${known.gives}. Add nothing, not even water. Do not close, move or empty it. Leave at once, go upwind, warn others, do not go back, and call people trained for it.`,
        known.source,
      );
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
