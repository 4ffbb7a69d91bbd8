// A scenario with defaults for everything that it leaves open, checked.
// Numbers without a source are judgement: an ordinary cruise.
import { bottleDepths } from "./bottleDepths.js";
import { checkFields } from "./checkFields.js";
import { checkScenario } from "./checkScenario.js";
import { oceans } from "./oceans.js";
import { type CompleteScenario, type Scenario, usualLaboratory } from "./scenario.js";

/**
 * A scenario with all defaults filled in.
 * @throws BadInput if a field is misspelt or missing, RangeError if a value is impossible
 */
export function completed(scenario: Scenario): CompleteScenario {
  checkFields(scenario);
  const ocean = scenario.ocean ?? "open-ocean";
  const deepest_dbar = scenario.deepest_dbar ?? oceans[ocean].usualDeepest_dbar;
  const complete: CompleteScenario = {
    seed: scenario.seed,
    casts: scenario.casts,
    name: scenario.name ?? `Invented cruise ${scenario.seed}`,
    ocean,
    deepest_dbar,
    cells: scenario.cells ?? ["primary", "secondary"],
    bottlePressures_dbar:
      scenario.bottlePressures_dbar ?? bottleDepths(scenario.bottles ?? 12, deepest_dbar),
    sampling: scenario.sampling ?? {
      kind: "averages",
      layer_dbar: Math.min(10, deepest_dbar / 50),
    },
    hoursBetweenCasts: scenario.hoursBetweenCasts ?? 6,
    laboratory: { ...usualLaboratory, ...scenario.laboratory },
    calibrationResidual_ppm: { primary: 0, secondary: 0, ...scenario.calibrationResidual_ppm },
    events: scenario.events ?? [],
  };
  checkScenario(complete);
  return complete;
}
