// Columns that are not what they are taken for.
import { describe, expect, it } from "vitest";
import type { Cast } from "../../src/cast/cast.js";
import { oceanNames } from "../../src/simulate/index.js";
import { healthOf, kindsOf, metres, scansAt, soundCast, withCell, withFault } from "./faults.js";

const samplings = [scansAt(4), metres];

describe("units of conductivity", () => {
  // 1 S/m = 10 mS/cm = 10 000 uS/cm (SI).
  it.each([
    ["S/m", 0.1, 10],
    ["uS/cm", 1000, 0.001],
  ])(
    "%s is reported with the correcting factor, beside a cell in mS/cm, in all oceans",
    (unit, times, factor) => {
      for (const ocean of oceanNames) {
        for (const sampling of samplings) {
          const cast = inUnit(soundCast({ seed: 1, ocean, sampling }), times);
          const { findings } = healthOf(cast);
          expect(kindsOf(findings)).toEqual(["units"]);
          expect(findings[0]).toMatchObject({
            cell: "primary",
            size: { value: factor },
            serious: true,
          });
          expect(findings[0]!.mend).toContain(unit);
        }
      }
    },
  );

  it("a single cell in S/m is reported in the deep ocean, not in water that may be that fresh", () => {
    const alone = { seed: 1, cells: ["primary"] as const, sampling: metres };
    const deep = healthOf(inUnit(soundCast(alone), 0.1));
    expect(kindsOf(deep.findings)).toEqual(["units"]);
    const shallow = healthOf(inUnit(soundCast({ ...alone, ocean: "brackish" }), 0.1));
    expect(kindsOf(shallow.findings)).not.toContain("units");
  });

  it("water of any sea in mS/cm has no finding", () => {
    for (const ocean of oceanNames) {
      expect(healthOf(soundCast({ seed: 2, ocean, sampling: metres })).findings).toEqual([]);
    }
  });
});

function inUnit(cast: Cast, times: number): Cast {
  return withFault(cast, "primary", "conductivity_mS_cm", (c) => {
    for (let i = 0; i < c.length; i++) c[i]! *= times;
  });
}

describe("exchanged columns", () => {
  it("exchanged temperature and conductivity of a cell are reported in ocean water", () => {
    for (const ocean of ["open-ocean", "shelf"] as const) {
      for (const sampling of samplings) {
        const cast = soundCast({ seed: 3, ocean, sampling });
        const { temperature_C, conductivity_mS_cm } = cast.columns.secondary!;
        const faulty = withCell(cast, "secondary", {
          temperature_C: conductivity_mS_cm,
          conductivity_mS_cm: temperature_C,
        });
        expect(healthOf(faulty).findings).toMatchObject([
          { kind: "exchanged-columns", cell: "secondary" },
        ]);
      }
    }
  });

  // The second pair of sensors meets the water a quarter of a second later, as one mounted higher does.
  const later = (cast: Cast): Cast => {
    const shift = (column: Float64Array) => {
      const shifted = column.slice();
      shifted.copyWithin(1, 0);
      return shifted;
    };
    const { temperature_C, conductivity_mS_cm } = cast.columns.secondary!;
    return withCell(cast, "secondary", {
      temperature_C: shift(temperature_C),
      conductivity_mS_cm: shift(conductivity_mS_cm),
    });
  };

  it("exchanged thermometers of two cells are reported if the intakes sample different water", () => {
    for (const seed of [1, 2, 3, 4]) {
      const cast = later(soundCast({ seed, ocean: "shelf", sampling: scansAt(4) }));
      expect(healthOf(cast).findings).toEqual([]);
      const { primary, secondary } = cast.columns;
      const exchanged = withCell(
        withCell(cast, "primary", { ...primary, temperature_C: secondary!.temperature_C }),
        "secondary",
        { ...secondary!, temperature_C: primary.temperature_C },
      );
      expect(kindsOf(healthOf(exchanged).findings)).toContain("exchanged-columns");
    }
  });
});

describe("the order of the scans", () => {
  it("an up leg written from top to bottom is reported", () => {
    for (const ocean of oceanNames) {
      for (const sampling of samplings) {
        const cast = soundCast({ seed: 5, ocean, sampling });
        const faulty = reordered(cast, (column, turn) => column.subarray(turn).reverse());
        expect(kindsOf(healthOf(faulty).findings)).toContain("scan-order");
      }
    }
  });

  it("an up leg before the down leg is reported", () => {
    const cast = soundCast({ seed: 6, sampling: metres });
    const faulty = reordered(cast, (column, turn) => {
      const down = column.slice(0, turn);
      column.copyWithin(0, turn);
      column.set(down, column.length - turn);
    });
    expect(kindsOf(healthOf(faulty).findings)).toContain("scan-order");
  });

  it("one leg alone, down or up, is in the right order", () => {
    const cast = soundCast({ seed: 7, sampling: metres });
    const turn = turnOf(cast);
    const part = (from: number, to: number) => {
      const cut = (column: Float64Array) => column.slice(from, to);
      return everyColumn(cast, cut);
    };
    expect(healthOf(part(0, turn)).findings).toEqual([]);
    expect(healthOf(part(turn, cast.columns.pressure_dbar.length)).findings).toEqual([]);
  });
});

function turnOf(cast: Cast): number {
  const p = cast.columns.pressure_dbar;
  return p.indexOf(p.reduce((a, b) => Math.max(a, b))) + 1;
}

function reordered(cast: Cast, change: (column: Float64Array, turn: number) => void): Cast {
  const turn = turnOf(cast);
  return everyColumn(cast, (column) => {
    const changed = column.slice();
    change(changed, turn);
    return changed;
  });
}

function everyColumn(cast: Cast, change: (column: Float64Array) => Float64Array): Cast {
  const { pressure_dbar, primary, secondary } = cast.columns;
  const cell = ({ temperature_C, conductivity_mS_cm }: typeof primary) => ({
    temperature_C: change(temperature_C),
    conductivity_mS_cm: change(conductivity_mS_cm),
  });
  return {
    ...cast,
    columns: {
      pressure_dbar: change(pressure_dbar),
      primary: cell(primary),
      ...(secondary === undefined ? {} : { secondary: cell(secondary) }),
      others: {},
    },
  };
}
