// Guess which heading of a file is a missing column: by its words, its unit and its range of values. A guess is shown in
// the error and never used.
import type { CastColumnName } from "./castColumnNames.js";
import { numberCell } from "./numberCell.js";

/** Names of a quantity, its possible units, and its range in the sea (judgement: wide). */
interface KnownQuantity {
  readonly names: RegExp;
  readonly unit: RegExp;
  readonly least: number;
  readonly most: number;
}

const pressure: KnownQuantity = {
  names: /^(p|pr|prs|pres|press|pressure|druck|presion)$|press/,
  unit: /d(eci)?bar|\bdb\b/i,
  least: -5,
  most: 12_000,
};
const temperature: KnownQuantity = {
  names: /^(t|te|tem|temp|temperature|t90|t68)$|temp/,
  unit: /deg|celsius|\u00b0|its.?90|ipts|[_ ([]c\b/i,
  least: -3,
  most: 40,
};
const conductivity: KnownQuantity = {
  names: /^(c|co|con|cond|conductivity)$|cond/,
  unit: /m?s[ _/]*c?m\b/i,
  least: 0,
  most: 80,
};
const time: KnownQuantity = {
  names: /^(time|elapsed|seconds?|secs?)$|elaps/,
  unit: /\bs(ec(onds?)?)?\b/i,
  least: 0,
  most: 1e6,
};

/** A column of the file that may be the missing one. */
interface Guess {
  readonly name: CastColumnName;
  readonly heading: string;
  /** The reason for the guess, in plain words. */
  readonly why: string;
}

const quantities: Readonly<Partial<Record<CastColumnName, KnownQuantity>>> = {
  pressure_dbar: pressure,
  temperature_C: temperature,
  conductivity_mS_cm: conductivity,
  time_s: time,
};

/**
 * @param wanted   our name of the missing column
 * @param headings of the file
 * @param units    a line of units below them, if the file has one
 * @param rows     the first rows
 * @returns the best candidate; undefined if none fits by its name or its unit
 */
export function guessHeading(
  wanted: CastColumnName,
  headings: readonly string[],
  units: readonly string[] | undefined,
  rows: readonly (readonly string[])[],
): Guess | undefined {
  const quantity = quantities[wanted];
  if (quantity === undefined) return undefined;
  let best: (Guess & { readonly weight: number }) | undefined;
  for (const [place, heading] of headings.entries()) {
    const candidate = judged(wanted, quantity, heading, units?.[place] ?? "", place, rows);
    if (candidate !== undefined && candidate.weight > (best?.weight ?? 0)) best = candidate;
  }
  if (best === undefined) return undefined;
  return { name: best.name, heading: best.heading, why: best.why };
}

function judged(
  wanted: CastColumnName,
  quantity: KnownQuantity,
  heading: string,
  unit: string,
  place: number,
  rows: readonly (readonly string[])[],
) {
  const word = heading
    .toLowerCase()
    .replace(/[[(].*/, "")
    .split(/[^a-z0-9]+/)
    .filter((part) => part !== "" && part !== "sea" && part !== "water")[0];
  // The second cell's column is not a candidate for the first.
  const second = /2|sec|second/.test(heading.toLowerCase()) && wanted !== "time_s";
  const named = word !== undefined && quantity.names.test(word.replace(/[01]$/, ""));
  const inUnit = quantity.unit.test(unit === "" ? heading.replace(/^[^\s_[(]*/, "") : unit);
  if (second || !(named || inUnit)) return undefined;
  const values = rows
    .map((cells) => numberCell(cells[place]))
    .filter((value): value is number => value !== undefined && !Number.isNaN(value));
  const least = Math.min(...values);
  const most = Math.max(...values);
  if (values.length === 0 || least < quantity.least || most > quantity.most) return undefined;
  // Conductivity in the sea is above 15 mS/cm except in ice-cold brackish water, and below 7 S/m.
  const siemens =
    wanted === "conductivity_mS_cm" &&
    (/\bs[ _/]*m\b/i.test(unit || heading) || (most > 0.5 && most < 8));
  const weight = (named ? 2 : 0) + (inUnit ? 1 : 0);
  const reasons = [
    ...(named ? ["its name"] : []),
    ...(inUnit ? [`its unit${unit === "" ? "" : ` ${unit}`}`] : []),
    `values from ${least} to ${most}`,
  ];
  const name: CastColumnName = siemens ? "conductivity_S_m" : wanted;
  return { name, heading, weight, why: reasons.join(", ") };
}
