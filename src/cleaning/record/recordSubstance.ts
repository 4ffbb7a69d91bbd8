// What was in the cell, and how strong, from the words of the record.
import type { MaintenanceEvent } from "../../cast/maintenance.js";
import type { Solution } from "../ladder/intensity.js";

type Chemical = Exclude<Solution["kind"], "water">;

const words: Readonly<Record<Chemical, RegExp>> = {
  hypochlorite: /hypochlorit|bleach|NaOCl/i,
  acid: /\bacid\b|\bHCl\b|vinegar/i,
  detergent: /detergent|surfactant|soap/i,
};
const chemicals = Object.keys(words) as readonly Chemical[];

/** Chemicals of an entry, by its words, else by what its action uses; none for water. */
export function chemicalsOf({ action, solution }: MaintenanceEvent): readonly Chemical[] {
  const named = chemicals.filter((kind) => words[kind].test(solution ?? ""));
  if (named.length > 0 || /water/i.test(solution ?? "")) return named;
  if (action === "wash" || action === "soak") return ["detergent"];
  if (action === "disinfect") return ["hypochlorite"];
  return action === "descale" ? ["acid"] : [];
}

/**
 * A concentration as written, in the unit that the ladder has for the chemical; NaN where it is not understood.
 * @example concentrationIn("0.1 %", "hypochlorite") // 1000
 */
export function concentrationIn(written: string, kind: Chemical): number {
  const found = /^\s*(\d+(?:[.,]\d+)?)\s*(%|ppm|mg\/l|g\/l|mol\/l|mmol\/l|M|mM)(?:\s.*)?$/.exec(
    written,
  );
  if (found === null) return Number.NaN;
  const value = Number(found[1]!.replace(",", "."));
  const factor = factors[kind][found[2]!];
  return factor === undefined ? Number.NaN : value * factor;
}

/** To % by volume, ppm of available chlorine, mol/l. */
const factors: Readonly<Record<Chemical, Readonly<Record<string, number>>>> = {
  detergent: { "%": 1, ppm: 1e-4, "g/l": 0.1 },
  hypochlorite: { "%": 10_000, ppm: 1, "mg/l": 1, "g/l": 1000 },
  acid: { "mol/l": 1, M: 1, "mmol/l": 1e-3, mM: 1e-3 },
};
