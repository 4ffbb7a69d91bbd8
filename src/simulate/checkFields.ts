// Check the fields of a scenario against the allowed ones: a misspelt field is refused, not ignored.
import type * as z from "zod";
import { BadInput, type Fault, quoted } from "../read/badInput.js";
import { valueAt } from "../read/valueAt.js";
import type { Scenario } from "./scenario.js";
import { scenarioSchema } from "./scenarioSchema.js";

/**
 * @param given a scenario from a program or a JSON file
 * @param file  its name, for the error
 * @throws BadInput with every fault: the event, the field found, the fields expected
 */
export function checkFields(given: unknown, file = "scenario"): Scenario {
  const result = scenarioSchema.safeParse(given);
  if (result.success) return given as Scenario;
  throw new BadInput(result.error.issues.map((issue) => faultOf(issue, given, file)));
}

function faultOf(issue: z.core.$ZodIssue, given: unknown, file: string): Fault {
  const unknown = issue.code === "unrecognized_keys" ? issue.keys : undefined;
  const column = placeOf(issue.path, given);
  return {
    file,
    line: 0,
    ...(column === "" ? {} : { column }),
    found:
      unknown === undefined
        ? quoted(valueAt(given, issue.path))
        : `${unknown.length === 1 ? "the field" : "the fields"} ${unknown.map(quoted).join(", ")}`,
    expected: issue.message
      .replace(/^Invalid (?:input|option): expected /, "")
      .replace(/, received .*$/, ""),
    mend: "docs/simulation.md has the fields of a scenario and of each event.",
  };
}

/** "event 2 (film-step), ppm": events count from 1 as casts do. */
function placeOf(path: readonly PropertyKey[], given: unknown): string {
  const [first, index, ...rest] = path;
  if (first !== "events" || typeof index !== "number") return path.map(String).join(".");
  const kind = valueAt(given, ["events", index, "kind"]);
  const which = `event ${index + 1}${typeof kind === "string" ? ` (${kind})` : ""}`;
  return [which, ...(rest.length === 0 ? [] : [rest.map(String).join(".")])].join(", ");
}
