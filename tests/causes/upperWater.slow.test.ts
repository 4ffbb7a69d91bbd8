// The upper water changes within the hours of a cast: invented cruises whose mixed layer has freshened by the time the package
// comes up. Common practice, no source: rain or a shallow front does so by hundredths in salinity, and both cells see it alike.
import { describe, expect, it } from "vitest";
import type { Cast, CellName } from "../../src/cast/cast.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const { cruise } = simulateCruise({
  seed: 21,
  casts: 4,
  deepest_dbar: 4500,
  sampling: { kind: "averages", layer_dbar: 5 },
  cells: ["primary", "secondary"],
});

/**
 * The cells, or only one, read lower once the cast has turned, as where the water is fresher by 0.017, times a share that depends
 * on the pressure.
 */
function freshened(data: Cast, share: (pressure_dbar: number) => number, only?: CellName): Cast {
  const { columns } = data;
  const pressure = columns.pressure_dbar;
  const turn = pressure.indexOf(Math.max(...pressure));
  const fresher = (values: Float64Array) =>
    values.map((value, i) => (i > turn ? value * (1 - 450e-6 * share(pressure[i]!)) : value));
  const changing = (["primary", "secondary"] as const).filter((cell) => cell === (only ?? cell));
  const cells = changing.map((cell) => [
    cell,
    {
      ...columns[cell]!,
      conductivity_mS_cm: fresher(columns[cell]!.conductivity_mS_cm),
    },
  ]);
  return { ...data, columns: { ...columns, ...Object.fromEntries(cells) } };
}

const before = assessCruise(cruise).casts;

const waters = [
  ...[60, 120].map((thick) => ({
    name: `a mixed layer of ${thick} dbar`,
    share: (p: number) => (p < thick ? 1 : 0),
  })),
  // As where the tide moves a front: some hundredths near the surface, nothing in the deep.
  { name: "water down through the thermocline", share: (p: number) => 3 * Math.exp(-p / 600) },
];
/** Other water that differs from layer to layer so much that few layers are the same on both legs. */
const layered = (p: number) => (p < 600 ? 2 + 4 * Math.abs(Math.sin(Math.floor(p / 15) * 13)) : 0);

describe("other water on the way up than on the way down, fresher by 0.017 or more at the surface", () => {
  const changed = (share: (pressure_dbar: number) => number, only?: CellName) => ({
    ...cruise,
    casts: cruise.casts.map((cast, i) =>
      i === 3 ? { ...cast, data: freshened(cast.data!, share, only) } : cast,
    ),
  });

  describe("before the bottles of the cast are measured", () => {
    const bottles = cruise.bottles.map((bottle) =>
      bottle.cast === cruise.casts[3]!.id ? { ...bottle, salinity: Number.NaN } : bottle,
    );
    const fouling = (share: (pressure_dbar: number) => number, only?: CellName) => {
      const { casts } = assessCruise({ ...changed(share, only), bottles });
      return (["primary", "secondary"] as const).map((cell) => {
        const { causes, advice } = casts[3]!.cells[cell]!;
        const film = causes.find(({ cause }) => cause === "fouling")?.probability ?? 0;
        return { film, advised: advice.intensity };
      });
    };

    it.each([
      { name: "that differs from layer to layer", share: layered },
      { name: "that ends at a sharp front", share: (p: number) => (p < 628 ? 2.2 : 0) },
    ])("is no film of one size in both cells: water $name", ({ share }) => {
      for (const { film, advised } of fouling(share)) {
        expect(film).toBeLessThan(0.1);
        expect(advised).toBe("rinse");
      }
    });

    it("but the same in one of two cells is a film, because both are in one water", () => {
      const [primary, secondary] = fouling((p) => (p < 628 ? 2.2 : 0), "primary");
      expect(primary!.film).toBeGreaterThan(0.9);
      expect(secondary!.film).toBeLessThan(0.1);
    });
  });

  for (const { name, share } of waters) {
    it(`is water and no film in both cells: ${name}`, () => {
      const { casts } = assessCruise(changed(share));
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
