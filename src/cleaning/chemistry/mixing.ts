// What must not be poured together, and in which order.
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

/** Why the two must not meet, for pairs whose product is known. */
const products: readonly {
  readonly pair: readonly [Substance, Substance];
  readonly gives: string;
  readonly source: string;
}[] = [
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
    pair: ["hypochlorite", "alcohol"],
    gives: "chlorinated organic vapours",
    source: "from memory",
  },
  { pair: ["hypochlorite", "peroxide"], gives: "oxygen and heat, at once", source: "from memory" },
];

/**
 * Nothing is returned: what may be poured, may.
 * @param held  what the vessel, the line or the waste bottle holds, or was not rinsed of, in the order it went in
 * @param added what is to be poured in
 * @throws DilutionRefused for a dangerous mixture, for water into acid, and for any two cleaners together
 */
export function checkMixing(held: readonly Substance[], added: Substance): void {
  if (added === "water") {
    if (held[0] !== "acid") return;
    throw new DilutionRefused(
      "wrong order",
      "Water is not poured into acid: it boils and spatters. Pour the water first and add the acid to it, slowly.",
      "common practice, no source",
    );
  }
  const other = held.find((substance) => substance !== "water" && substance !== added);
  if (other === undefined) return;
  const known = products.find(({ pair }) => pair.includes(other) && pair.includes(added));
  const gives = known === undefined ? "" : ` Together they give ${known.gives}.`;
  throw new DilutionRefused(
    "dangerous mixture",
    `${capital(added)} is not poured onto ${other}, nor where ${other} was and is not rinsed out.${gives} Flush with plenty of fresh water and use another bottle.`,
    known?.source ?? "common practice, no source",
  );
}

function capital(word: string): string {
  return word.charAt(0).toUpperCase() + word.slice(1);
}
