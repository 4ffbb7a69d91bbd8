// The cleaning decision for one cell, from what is held of it now.
import type { Advice } from "../../cleaning/decision/advice.js";
import { type Circumstances, decide } from "../../cleaning/decision/decide.js";
import { defaultRecovery, failedOnFilm } from "../../model/recovery.js";
import { filmComponents } from "../../track/cellView.js";
import type { SeenCleaning } from "../../track/cleaningOutcomes.js";
import type { CellContext } from "./cellVerdict.js";

/** @param outcomes of past cleanings, of any cell */
export function adviceFor(
  { layout, cell, tracked, hoursToNext, everObserved, target, target_ppm }: CellContext,
  outcomes: readonly SeenCleaning[],
  circumstances: Omit<Circumstances, "cell" | "oneOfTwo" | "failed" | "target" | "target_ppm">,
): Advice {
  const { now, noise } = tracked;
  const belief = filmComponents(layout, now, cell, hoursToNext / 24, noise).map((component) =>
    everObserved ? component : { ...component, cause: "undetermined" as const },
  );
  return decide(belief, {
    ...circumstances,
    cell,
    oneOfTwo: layout.cells.length > 1,
    failed: failedOnFilm(defaultRecovery, outcomes, cell),
    target,
    target_ppm,
  });
}
