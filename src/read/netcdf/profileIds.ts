// What the profiles of a file are called.
import { BadInput } from "../badInput.js";
import { castIdFault } from "../castIds.js";
import { type NetcdfFile, textOf } from "./netcdfFile.js";
import type { Geometry } from "./profiles.js";
import { textsOf } from "./values.js";

/**
 * By profile, the id that its profile_id gives; undefined if the file holds one and does not name it.
 * @throws BadInput if a name of a profile cannot be that of a cast, or two have the same
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
    mend: "Give each profile a name of its own, as 001.",
  });
  const faults = ids.flatMap((id, k) => {
    const wrong = castIdFault(id);
    if (wrong !== undefined) return [fault(wrong.found, wrong.expected)];
    return ids.indexOf(id) < k ? [fault(`the profile ${id} a second time`, "each once")] : [];
  });
  if (faults.length > 0) throw new BadInput(faults);
  return ids;
}
