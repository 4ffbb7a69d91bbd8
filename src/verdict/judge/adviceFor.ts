// The cleaning decision for one cell, from what is held of it now.
import type { Advice } from "../../cleaning/decision/advice.js";
import { type Circumstances, decide } from "../../cleaning/decision/decide.js";
import { filmComponents } from "../../track/cellView.js";
import type { CellContext } from "./cellVerdict.js";

export function adviceFor(
  { layout, cell, tracked, hoursToNext, everObserved, target, target_ppm }: CellContext,
  circumstances: Omit<Circumstances, "target" | "target_ppm">,
): Advice {
  const { now, noise } = tracked;
  const belief = filmComponents(layout, now, cell, hoursToNext / 24, noise).map((component) =>
    everObserved ? component : { ...component, cause: "undetermined" as const },
  );
  return decide(belief, { ...circumstances, target, target_ppm });
}
