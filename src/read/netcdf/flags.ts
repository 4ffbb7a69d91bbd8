// Values of a variable that its quality flags exclude [CFConventions2023], section 3.5.
import { badCtdFlags } from "../exchange.js";
import { type NetcdfFile, type NetcdfVariable, numbersOf, textOf } from "./netcdfFile.js";

/** Words in the meaning of a flag that exclude the value. */
const bars =
  /(^|_)(bad|questionable|suspect|suspicious|doubtful|erroneous|wrong|fail|failed|missing|rejected)(_|$)|not_(used|reported|sampled)/i;
const keeps = /(^|_)(not|no)_(bad|suspect|missing)(_|$)/i;
/** Reference table 2 of OceanSITES and Argo: correctable, bad, not used, missing. */
const oceanSites = [3, 4, 6, 9];

export interface BarringFlags {
  readonly variable: NetcdfVariable;
  readonly bars: (flag: number) => boolean;
}

/** @param note receives notes on flags without a stated meaning */
export function flagsOf(
  { variables }: NetcdfFile,
  variable: NetcdfVariable,
  note: (text: string) => void,
): readonly BarringFlags[] {
  const names = (textOf(variable, "ancillary_variables") ?? "").split(/\s+/);
  return names.flatMap((name) => {
    const flags = variables.find((other) => other.name === name);
    if (flags === undefined || !isFlag(flags)) return [];
    const test = barredBy(flags);
    if (test !== undefined) return [{ variable: flags, bars: test }];
    note(`${name} does not say what its flags mean: they were ignored`);
    return [];
  });
}

function isFlag(variable: NetcdfVariable): boolean {
  const standard = textOf(variable, "standard_name") ?? "";
  return (
    /(^|\s)(status_flag|quality_flag)$|_quality_flag$/.test(standard) ||
    ["flag_values", "flag_masks", "flag_meanings"].some((key) => variable.attributes.has(key))
  );
}

function barredBy(flags: NetcdfVariable): BarringFlags["bars"] | undefined {
  const meanings = (textOf(flags, "flag_meanings") ?? "")
    .split(/\s+/)
    .filter((word) => word !== "");
  const values = numbersOf(flags, "flag_values");
  const masks = numbersOf(flags, "flag_masks");
  const count = Math.max(values.length, masks.length);
  if (meanings.length > 0 && meanings.length === count) {
    const barred = meanings.flatMap((word, k) =>
      bars.test(word) && !keeps.test(word) ? [{ value: values[k], mask: masks[k] }] : [],
    );
    return (flag) =>
      barred.some(({ value, mask }) => {
        if (mask === undefined) return flag === value;
        return value === undefined ? (flag & mask) !== 0 : (flag & mask) === value;
      });
  }
  const convention = textOf(flags, "conventions") ?? textOf(flags, "Conventions") ?? "";
  const known = /woce|go-?ship|exchange/i.test(convention)
    ? badCtdFlags
    : /oceansites|argo/i.test(convention)
      ? oceanSites
      : undefined;
  return known === undefined ? undefined : (flag) => known.includes(flag);
}
