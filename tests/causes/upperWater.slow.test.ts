// The upper water changes within the hours of a cast: invented cruises whose mixed layer has freshened by the time the package
// comes up. Common practice, no source: rain or a shallow front does so by hundredths in salinity, and both cells see it alike.
import { describe, expect, it } from "vitest";
import type { Cast } from "../../src/cast/cast.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const { cruise } = simulateCruise({
  seed: 21,
  casts: 4,
  deepest_dbar: 1800,
  sampling: { kind: "averages", layer_dbar: 5 },
  cells: ["primary", "secondary"],
});

/** Both cells read lower above a depth once the cast has turned, as where the water there is fresher by 0.017. */
function freshened(data: Cast, above_dbar: number): Cast {
  const { columns } = data;
  const pressure = columns.pressure_dbar;
  const turn = pressure.indexOf(Math.max(...pressure));
  const fresher = (values: Float64Array) =>
    values.map((value, i) =>
      i > turn && pressure[i]! < above_dbar ? value * (1 - 450e-6) : value,
    );
  const cells = (["primary", "secondary"] as const).map((cell) => [
    cell,
    {
      ...columns[cell]!,
      conductivity_mS_cm: fresher(columns[cell]!.conductivity_mS_cm),
    },
  ]);
  return { ...data, columns: { ...columns, ...Object.fromEntries(cells) } };
}

const before = assessCruise(cruise).casts;

describe("a mixed layer that freshens by 0.017 while the package is below it", () => {
  for (const above_dbar of [60, 120]) {
    it(`is water and no film in both cells, where it is ${above_dbar} dbar thick`, () => {
      const changed = {
        ...cruise,
        casts: cruise.casts.map((cast, i) =>
          i === 3 ? { ...cast, data: freshened(cast.data!, above_dbar) } : cast,
        ),
      };
      const { casts } = assessCruise(changed);
      for (const cell of ["primary", "secondary"] as const) {
        const told = casts[3]!.cells[cell]!;
        const usual = before[3]!.cells[cell]!.gainError.up;
        const fouling = told.causes.find(({ cause }) => cause === "fouling")?.probability ?? 0;
        expect(fouling).toBeLessThan(0.05);
        expect(told.advice.intensity).toBe("rinse");
        // No further from the same cast in unchanged water than its own uncertainty.
        expect(Math.abs(told.gainError.up.ppm - usual.ppm)).toBeLessThan(usual.standardUncertainty);
      }
    });
  }
});
