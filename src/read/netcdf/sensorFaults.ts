// Messages on variables that are missing or in unknown units.
import type { Fault } from "../badInput.js";
import type { NetcdfFile, NetcdfVariable } from "./netcdfFile.js";

export function noSuch(wanted: string, variables: readonly NetcdfVariable[]) {
  return {
    column: wanted,
    found: `no such variable among ${someNames(variables)}`,
    expected: "the name of a variable of the file",
    mend: "Correct the name given with --column, or under `mapping` in cruise.json.",
  };
}

/**
 * @param standard the missing standard name
 * @param ours     our column for it
 */
export function absent(
  { variables }: NetcdfFile,
  standard: string,
  ours: string,
  file: string,
): Fault {
  return {
    file,
    line: 0,
    column: ours,
    found: `no variable with its standard name among ${someNames(variables)}`,
    expected: `a variable with the standard_name ${standard}`,
    mend: `Give the variable its standard_name, or name it with --column ${ours}=NAME, or under \`mapping\` in cruise.json.`,
  };
}

export function unknownUnit(file: string, column: string, unit: string, expected: string): Fault {
  return {
    file,
    line: 0,
    column,
    found: unit === "" ? "no units" : `the units ${JSON.stringify(unit.slice(0, 60))}`,
    expected,
    mend: "Write the attribute units as UDUNITS spells it.",
  };
}

function someNames(variables: readonly NetcdfVariable[]): string {
  return variables.length === 0
    ? "none"
    : variables
        .slice(0, 15)
        .map(({ name }) => name)
        .join(", ")
        .slice(0, 300);
}
