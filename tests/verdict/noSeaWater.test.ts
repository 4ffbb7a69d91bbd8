// One cell of two reads no sea water at all through a whole cast: a plug came loose, or the transmission failed (common practice,
// no source). Its last estimate is what is known of it.
import { expect, test } from "vitest";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const casts = 4;

test.each([1e-3, 0.03, 0.5])(
  "a cell that reads %d of the conductivity keeps its estimate",
  (factor) => {
    const { cruise } = simulateCruise({
      seed: 1,
      casts,
      deepest_dbar: 600,
      cells: ["primary", "secondary"],
    });
    const bottles = cruise.bottles.filter(({ cast }) => Number(cast) < casts);
    const broken = cruise.casts.map((cast) => {
      const { data } = cast;
      if (Number(cast.id) < casts || data === undefined) return cast;
      const { primary } = data.columns;
      const conductivity_mS_cm = primary.conductivity_mS_cm.map((c) => factor * c);
      const columns = { ...data.columns, primary: { ...primary, conductivity_mS_cm } };
      return { ...cast, data: { ...data, columns } };
    });
    const { cells, advice } = assessCruise({ ...cruise, casts: broken, bottles }).casts.at(-1)!;
    for (const { gainError } of Object.values(cells)) {
      const [least, most] = gainError.up.interval95;
      expect(Math.abs(gainError.up.ppm)).toBeLessThan(100);
      expect(most - least).toBeLessThan(400);
    }
    expect(advice.deepClean).toBe(false);
  },
);
