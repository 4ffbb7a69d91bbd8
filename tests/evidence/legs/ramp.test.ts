// A film that takes a minute to come, or several: the legs agree below, differ by all of it above, and by part of it between.
import { describe, expect, it } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { legsEvidence } from "../../../src/evidence/legs/legs.js";
import { simulateCruise } from "../../../src/simulate/index.js";

const { cruise } = simulateCruise({
  seed: 41,
  casts: 3,
  deepest_dbar: 3000,
  sampling: { kind: "averages", layer_dbar: 2 },
  cells: ["primary"],
});
/** On the way up from here on; the film is within 1/e of its size after the distance `ramp_dbar`. */
const onset_dbar = 1800;
const film_ppm = -240;

describe("a film that comes little by little on the way up", () => {
  it.each([15, 90])("over some %d dbar is an onset in that place", (ramp_dbar) => {
    for (const { data } of cruise.casts) {
      const { pressure_dbar, primary } = data!.columns;
      const turn = pressure_dbar.indexOf(Math.max(...pressure_dbar));
      const conductivity_mS_cm = primary!.conductivity_mS_cm.map((c, i) => {
        const since_dbar = i > turn ? Math.max(0, onset_dbar - pressure_dbar[i]!) : 0;
        return c * (1 + film_ppm * 1e-6 * (1 - Math.exp(-since_dbar / ramp_dbar)));
      });
      const fouled = {
        ...data!,
        columns: { ...data!.columns, primary: { ...primary!, conductivity_mS_cm } },
      };
      const { onset, observations } = legsEvidence(fouled, splitLegs(fouled), "primary");
      expect(Math.abs(onset!.pressure_dbar - onset_dbar)).toBeLessThan(3 * ramp_dbar);
      const complete_dbar = onset_dbar - 7 * ramp_dbar;
      const above = observations.filter(({ pressure_dbar: p }) => p > 300 && p < complete_dbar);
      for (const { value, variance } of above)
        expect(Math.abs(value - film_ppm)).toBeLessThan(3 * Math.sqrt(variance) + 5);
    }
  });
});
