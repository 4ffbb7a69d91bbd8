// Compare scans with their times: in a cast written backwards the legs would be exchanged.
import type { Fault } from "./badInput.js";

/** Number of steps to check, evenly spaced. */
const sample = 5000;

/** @returns the fault if most steps of a time or of scan numbers go backwards; otherwise undefined */
export function backwardsFault(
  values: ArrayLike<number>,
): Pick<Fault, "found" | "expected" | "mend"> | undefined {
  let on = 0;
  let back = 0;
  const stride = Math.max(1, Math.floor(values.length / sample));
  for (let i = 1; i < values.length; i += stride) {
    const step = values[i]! - values[i - 1]!;
    if (step > 0) on++;
    else if (step < 0) back++;
  }
  if (back <= on) return undefined;
  return {
    found: `scans that run backwards, in ${back} of ${on + back} steps checked`,
    expected: "scans in the order in which they were taken",
    mend: "Reverse the order of the rows, so that the first scan comes first.",
  };
}
