// The ids of the profiles of a file.
import { BadInput } from "../badInput.js";
import { castIdFault } from "../castIds.js";
import { type NetcdfFile, textOf } from "./netcdfFile.js";
import type { Geometry } from "./profiles.js";
import { textsOf } from "./values.js";

/**
 * The id of each profile from its profile_id; undefined if the file has one profile without a name.
 * @throws BadInput if the name of a profile is not a valid id, or two have the same
 */
export function idsOf(
  { variables }: NetcdfFile,
  { scans }: Geometry,
  file: string,
): readonly (string | undefined)[] {
  const variable = variables.find((v) => textOf(v, "cf_role") === "profile_id");
  if (variable === undefined) {
    return scans.length === 1 ? [undefined] : Array.from(scans, (_, k) => String(k + 1));
  }
  const texts = textsOf(variable);
  const ids = Array.from(scans, (_, k) => texts[k] ?? "");
  const fault = (found: string, expected: string) => ({
    file,
    line: 0,
    column: variable.name,
    found,
    expected,
    mend: "Give each profile a name of its own, such as 001.",
  });
  const faults = ids.flatMap((id, k) => {
    const wrong = castIdFault(id);
    if (wrong !== undefined) return [fault(wrong.found, wrong.expected)];
    return ids.indexOf(id) < k ? [fault(`the profile ${id} a second time`, "each once")] : [];
  });
  if (faults.length > 0) throw new BadInput(faults);
  return ids;
}
