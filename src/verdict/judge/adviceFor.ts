// The cleaning decision for one cell, from its present posterior.
import type { Advice } from "../../cleaning/decision/advice.js";
import { type Belief, type Circumstances, decide } from "../../cleaning/decision/decide.js";
import { cellEvents } from "../../model/eventHistory.js";
import type { Hypothesis } from "../../model/hypothesis.js";
import { defaultRecovery, failedOnFilm } from "../../model/recovery.js";
import { filmComponents } from "../../track/cellView.js";
import type { OutcomeOfCleaning } from "../../track/cleaningOutcomes.js";
import { type CellContext, timeToNext } from "./cellVerdict.js";

/** @param outcomes of past cleanings, of any cell */
export function adviceFor(
  context: CellContext,
  outcomes: readonly OutcomeOfCleaning[],
  circumstances: Omit<
    Circumstances,
    "cell" | "beforeRinse" | "oneOfTwo" | "failed" | "target" | "target_ppm"
  >,
): Advice {
  const { layout, cell, tracked, target, target_ppm } = context;
  return decide(beliefOf(context, tracked.afterMaintenance), {
    ...circumstances,
    cell,
    // A rinse that may have worked is no evidence that it did. Otherwise a cell that is rinsed after each cast would never be
    // cleaned harder.
    ...(cleanedSince(context) ? {} : { beforeRinse: beliefOf(context, tracked.hypotheses) }),
    oneOfTwo: layout.cells.length > 1,
    failed: failedOnFilm(defaultRecovery, outcomes, cell),
    target,
    target_ppm,
  });
}

function beliefOf(context: CellContext, hypotheses: readonly Hypothesis[]): Belief {
  const { layout, cell, tracked, everObserved, unread } = context;
  return filmComponents(layout, hypotheses, cell, timeToNext(context), tracked.noise).map(
    (component) =>
      everObserved && !(component.cause === "sound" && unread !== undefined)
        ? component
        : { ...component, cause: "undetermined" as const },
  );
}

/** Whether the record has a harder cleaning than a rinse since this cast: only that can have failed or worked in part. */
function cleanedSince({ cell, tracked }: CellContext): boolean {
  return tracked.afterMaintenance.some(({ events }) =>
    cellEvents(events, cell).film?.removals.some(
      ({ cast, when, how }) =>
        cast === tracked.cast && when === "after" && how.startsWith("cleaned in"),
    ),
  );
}
