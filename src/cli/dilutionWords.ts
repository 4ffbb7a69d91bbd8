// The arguments of `foulcast dilute`: a stock, the required solution, and the former content of the bottle.
import { parseArgs } from "node:util";
import { type Substance, substances } from "../cleaning/chemistry/mixing.js";
import type { HypochloriteStock, Stock } from "../cleaning/chemistry/stock.js";
import { volumeNeeded_ml } from "../cleaning/ladder/volumeNeeded.js";
import { UsageError } from "./usageError.js";

interface DilutionAsked {
  readonly stock: Stock;
  readonly wanted: { readonly concentration: number; readonly volume_ml: number };
  readonly held: readonly Substance[];
  readonly smallest_ml: number;
  readonly json?: string;
}

type Words = ReturnType<typeof parsed>;

/** @throws UsageError if an argument is missing, is not understood, or does not fit the stock */
export function dilutionWords(words: readonly string[]): DilutionAsked {
  const values = parsed(words);
  const stock = stockFrom(values);
  const { json } = values;
  return {
    stock,
    wanted: { concentration: concentrationFrom(values, stock), volume_ml: volumeFrom(values) },
    held: heldFrom(values["bottle-held"]),
    smallest_ml: numberFrom(values, "smallest-ml", 0.1) ?? 1,
    ...(json === undefined ? {} : { json }),
  };
}

function parsed(words: readonly string[]) {
  const text = { type: "string" } as const;
  try {
    return parseArgs({
      args: [...words],
      options: {
        stock: text,
        "strength-percent": text,
        "percent-means": text,
        "density-kg-per-l": text,
        "age-days": text,
        "kept-celsius": text,
        "to-ppm": text,
        "to-percent": text,
        "to-mol-per-l": text,
        "volume-ml": text,
        "plumbing-ml": text,
        fills: text,
        "smallest-ml": text,
        "bottle-held": text,
        json: text,
      },
    }).values;
  } catch (error) {
    // The error of parseArgs names the unknown option.
    if (error instanceof TypeError) throw new UsageError(error.message);
    throw error;
  }
}

const acids = { "hydrochloric-acid": "hydrochloric", "acetic-acid": "acetic" } as const;
const percentsOfHypochlorite = {
  "NaOCl-by-mass": "NaOCl by mass",
  "chlorine-by-mass": "available chlorine by mass",
  "chlorine-by-volume": "available chlorine by volume",
} as const satisfies Record<string, HypochloriteStock["meaning"]>;

function stockFrom(values: Words): Stock {
  const { stock } = values;
  if (stock !== "hypochlorite") onlyFor("hypochlorite", values, ["age-days", "kept-celsius"]);
  switch (stock) {
    case "hypochlorite":
      return hypochlorite(values);
    case "detergent":
      return detergent(values);
    case "hydrochloric-acid":
    case "acetic-acid":
      if ((values["percent-means"] ?? "mass") !== "mass") {
        throw new UsageError("--percent-means: the per cent of an acid is by mass");
      }
      return {
        kind: "acid",
        acid: acids[stock],
        percent: required(values, "strength-percent"),
        density_kg_l: required(values, "density-kg-per-l"),
      };
    default:
      throw new UsageError(
        `--stock ${stock ?? ""}: expected hypochlorite, detergent, hydrochloric-acid or acetic-acid`,
      );
  }
}

function hypochlorite(values: Words): HypochloriteStock {
  const said = values["percent-means"] ?? "";
  const meaning = Object.entries(percentsOfHypochlorite).find(([name]) => name === said)?.[1];
  if (meaning === undefined) {
    throw new UsageError(
      `--percent-means ${said}: "per cent" of hypochlorite means three things. Expected one of ${Object.keys(percentsOfHypochlorite).join(", ")}`,
    );
  }
  const age_days = numberFrom(values, "age-days");
  const kept_C = numberFrom(values, "kept-celsius");
  const common = {
    kind: "hypochlorite",
    percent: required(values, "strength-percent"),
    ...(age_days === undefined ? {} : { age_days }),
    ...(kept_C === undefined ? {} : { kept_C }),
  } as const;
  return meaning === "available chlorine by volume"
    ? { ...common, meaning }
    : { ...common, meaning, density_kg_l: required(values, "density-kg-per-l") };
}

function detergent(values: Words): Stock {
  const by = values["percent-means"] ?? "volume";
  if (by !== "volume" && by !== "mass") {
    throw new UsageError(`--percent-means ${by}: expected volume or mass for detergent`);
  }
  const percent = required(values, "strength-percent");
  return by === "volume"
    ? { kind: "detergent", percent, by }
    : { kind: "detergent", percent, by, density_kg_l: required(values, "density-kg-per-l") };
}

const wantedBy = {
  hypochlorite: "to-ppm",
  detergent: "to-percent",
  acid: "to-mol-per-l",
} as const;

function concentrationFrom(values: Words, { kind }: Stock): number {
  const own = wantedBy[kind];
  const others = Object.values(wantedBy).filter((name) => name !== own);
  const foreign = others.find((name) => values[name] !== undefined);
  if (foreign !== undefined) {
    throw new UsageError(`--${foreign}: the strength of ${kind} is given by --${own}`);
  }
  return required(values, own);
}

function volumeFrom(values: Words): number {
  if (values["plumbing-ml"] === undefined && values.fills === undefined) {
    return required(values, "volume-ml");
  }
  if (values["volume-ml"] !== undefined) {
    throw new UsageError("--volume-ml: expected either it, or --plumbing-ml with --fills");
  }
  return volumeNeeded_ml(required(values, "plumbing-ml"), required(values, "fills"));
}

function heldFrom(text: string | undefined): readonly Substance[] {
  return (text ?? "")
    .split(",")
    .map((word) => word.trim())
    .filter((word) => word !== "")
    .map((word) => {
      const known = substances.find((substance) => substance === word);
      if (known !== undefined) return known;
      throw new UsageError(`--bottle-held ${word}: expected some of ${substances.join(", ")}`);
    });
}

type NumberName = Exclude<keyof Words, "stock" | "percent-means" | "bottle-held" | "json">;

/** A number above 0. */
function required(values: Words, name: NumberName): number {
  const value = numberFrom(values, name);
  if (value !== undefined && value > 0) return value;
  throw new UsageError(`--${name} ${values[name] ?? ""}: expected a number above 0`);
}

/** The library checks whether it is plausible: plausibleStock.ts. */
function numberFrom(
  values: Words,
  name: NumberName,
  least = Number.NEGATIVE_INFINITY,
): number | undefined {
  const text = values[name];
  if (text === undefined) return undefined;
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (Number.isFinite(value) && value >= least) return value;
  const from = Number.isFinite(least) ? ` from ${least} up` : "";
  throw new UsageError(`--${name} ${text}: expected a number${from}`);
}

function onlyFor(kind: string, values: Words, names: readonly NumberName[]): void {
  const given = names.find((name) => values[name] !== undefined);
  if (given !== undefined) throw new UsageError(`--${given}: only for ${kind}`);
}
