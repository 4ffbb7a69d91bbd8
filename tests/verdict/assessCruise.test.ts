import { describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cast, CellColumns, CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { type Scenario, simulateCruise } from "../../src/simulate/index.js";
import { assessCast, assessCruise } from "../../src/verdict/assessCruise.js";
import type { VerdictDocument } from "../../src/verdict/verdict.js";
import { checkDocument } from "./checkDocument.js";
import { filmStep } from "./filmStep.js";
import { cutAfter, untimed } from "./partsOfCruise.js";

const scenario: Scenario = {
  ...filmStep,
  seed: 21,
  casts: 3,
  events: [
    ...filmStep.events.map((event) => ({ ...event, cast: 2 })),
    { kind: "cleaning", afterCast: 2, cells: ["primary"], intensity: "soak", retained: 0 },
  ],
};
const { cruise: fouled, truth } = simulateCruise(scenario);
const sound = simulateCruise({ ...scenario, seed: 22, casts: 2, events: [] }).cruise;
const onFouled = assessCruise(fouled);
/** The same with one cell, which takes less than half the time. */
const alone = simulateCruise({ ...scenario, cells: ["primary"] }).cruise;
const onAlone = assessCruise(alone);
const onSound = assessCruise(sound);
const gainsOf = ({ casts }: VerdictDocument, cell: CellName) =>
  casts.map(({ cells }) => cells[cell]!.gainError.up.ppm);
const firstOf = (cruise: Cruise, count: number): Cruise => ({
  ...cruise,
  casts: cruise.casts.slice(0, count),
  bottles: cruise.bottles.filter(({ cast }) =>
    cruise.casts.slice(0, count).some(({ id }) => id === cast),
  ),
});
const leading = ({ casts }: VerdictDocument, cell: CellName) =>
  casts.map(({ cells }) => cells[cell]!.causes[0]!.cause);

describe("a verdict on a film that came in mid-cast and was cleaned off", () => {
  it("a film is fouling from the cast of its onset, in ppm of conductivity, and the cell is sound after the cleaning", () => {
    expect(leading(onFouled, "primary")).toEqual(["sound", "fouling", "sound"]);
    expect(new Set(leading(onFouled, "secondary"))).toEqual(new Set(["sound"]));
    const { gainError, salinityError } = onFouled.casts[1]!.cells.primary!;
    for (const leg of ["down", "up"] as const) {
      const { ppm, standardUncertainty } = gainError[leg];
      expect(Math.abs(ppm - truth[1]!.cells.primary!.gain[leg])).toBeLessThan(
        3 * standardUncertainty,
      );
      // A tenth of the film.
      expect(standardUncertainty).toBeLessThan(25);
    }
    // 100 ppm are 0.0039 in salinity at SP 35 (PSS-78).
    expect(salinityError.at35).toBeCloseTo(gainError.up.ppm * 3.9e-5, 3);
  });

  it("each line of evidence gives its own result in ppm: legs and pair see the film, the sound cell has none", () => {
    const { evidence } = onFouled.casts[1]!;
    const of = (line: string, cell: string) =>
      evidence.find((summary) => summary.line === line && summary.cell === cell)!;
    expect(of("bottles", "primary").ppm).toBeLessThan(-200);
    expect(Math.abs(of("bottles", "secondary").ppm)).toBeLessThan(40);
    expect(Math.abs(of("legs", "secondary").ppm)).toBeLessThan(15);
  });

  it("the sound cell gets the usual rinse, and the fouled one a cleaning", () => {
    const { primary, secondary } = onFouled.casts[1]!.cells;
    expect(secondary!.advice.intensity).toBe("rinse");
    expect(primary!.advice.intensity).not.toBe("rinse");
    for (const { cells } of onFouled.casts) {
      for (const { advice } of Object.values(cells)) {
        if (advice.steps.length > 0) expect(advice.cautions.length).toBeGreaterThan(0);
      }
    }
  });
});

describe("a verdict as of the time of its cast", () => {
  it("a verdict uses no later data: a cruise cut after its second cast has the same verdicts", () => {
    // The film comes on that cast and is cleaned off after it. anyCruise.slow.test.ts cuts after any cast.
    expect(assessCruise(cutAfter(alone, 2)).casts).toEqual(onAlone.casts.slice(0, 2));
  });

  it("the verdict on one cast equals that of the whole cruise, and reads no scans of later casts", () => {
    const unread = new Proxy({} as Cast, {
      get: () => {
        throw new Error("read");
      },
    });
    const without = (read: number) => ({
      ...alone,
      casts: alone.casts.map((cast, i) => (i < read ? cast : { ...cast, data: unread })),
    });
    expect(assessCast(without(2), "002")).toEqual(onAlone.casts[1]);
    expect(() => assessCast(without(0), "001")).toThrow("read");
    expect(() => assessCast(alone, "099")).toThrow(RangeError);
  });
});

describe("a cruise in any state of completeness", () => {
  const bottlesOnly = (cruise: Cruise): Cruise => ({
    ...cruise,
    casts: cruise.casts.map(({ data: _, ...cast }) => cast),
  });

  it("a cruise without bottles uses legs, pair and deep water, and the verdict recommends bottles", () => {
    const document = assessCruise({ ...firstOf(fouled, 2), bottles: [] });
    checkDocument(document);
    const lines = new Set(
      document.casts.flatMap(({ evidence }) => evidence.map(({ line }) => line)),
    );
    expect(lines).toEqual(new Set(["pair", "legs", "deep-water"]));
    // The film came within a cast: the legs see it, and the pair tells the cell.
    expect(document.casts[1]!.cells.primary!.causes[0]!.cause).toBe("fouling");
  });

  it("a cruise without casts uses the bottles and the pair at their closures", () => {
    const document = assessCruise(bottlesOnly(firstOf(fouled, 2)));
    checkDocument(document);
    expect(document.casts[1]!.cells.primary!.causes[0]!.cause).toBe("fouling");
  });

  it("one cast has a verdict, and so have two without record, times, instrument and next station", () => {
    const { nextStation: _, ...noNext } = alone;
    for (const cruise of [
      { ...fouled, casts: fouled.casts.slice(0, 1) },
      {
        ...{ ...noNext, casts: alone.casts.slice(0, 2).map(untimed) },
        ...{ maintenance: [], instrument: {} },
      },
    ]) {
      checkDocument(assessCruise(cruise));
    }
  });

  it("a cell that was never read is undetermined with a wide interval, and the verdict recommends bottles", () => {
    const nothing: Cruise = {
      name: "Nothing yet (invented)",
      casts: [{ id: "1" }, { id: "2" }],
      bottles: [],
      maintenance: [],
      instrument: {},
      target: 0.002,
      inputs: [],
    };
    const document = assessCruise(nothing);
    checkDocument(document);
    for (const { cells, evidence, wouldDecide, data } of document.casts) {
      expect(evidence).toEqual([]);
      expect(cells.primary!.causes).toMatchObject([{ cause: "undetermined", probability: 1 }]);
      expect(cells.primary!.advice.deepClean).toBe(false);
      expect(wouldDecide.join()).toMatch(/bottles/);
      expect(data).toBe("questionable");
    }
    expect(() => assessCruise({ ...nothing, casts: [] })).toThrow(RangeError);
    // A package of which no cell is named is one of which nothing is known.
    checkDocument(assessCruise({ ...nothing, instrument: { cells: [] } }));
  });

  it("unmeasured newest bottles widen the intervals until they are measured", () => {
    const one = firstOf(alone, 1);
    const waiting = one.bottles.map((bottle) => ({ ...bottle, salinity: Number.NaN }));
    const document = assessCruise({ ...one, bottles: waiting });
    checkDocument(document);
    const uncertainty = ({ casts }: VerdictDocument) =>
      casts[0]!.cells.primary!.gainError.up.standardUncertainty;
    expect(uncertainty(document)).toBeGreaterThan(uncertainty(onAlone));
    expect(document.casts.at(-1)!.notes.join()).toMatch(/no laboratory salinity/);
  });

  it("excluded bottles are named even if all bottles of a cast are excluded", () => {
    const one = firstOf(alone, 1);
    const flagged = one.bottles.map((bottle) => ({ ...bottle, flag: 4 }));
    const document = assessCruise({ ...one, bottles: flagged });
    checkDocument(document);
    const named = document.casts[0]!.notes.filter((note) => /flagged bad in the file/.test(note));
    expect(named).toHaveLength(1);
    for (const { bottle } of flagged) expect(named[0]).toContain(`bottle ${bottle} at`);
  });

  it("casts without scans, with one scan, with gaps only or with one leg have a verdict", () => {
    const odd: readonly ((cast: Cast) => Cast)[] = [
      (cast) => scansOf(cast, 0, 0),
      (cast) => scansOf(cast, 0, 1),
      (cast) => scansOf(cast, 0, Math.floor(cast.columns.pressure_dbar.length / 2)),
      (cast) => ({ ...cast, columns: { ...cast.columns, primary: gaps(cast.columns.primary) } }),
      (cast) => ({
        ...cast,
        columns: {
          ...cast.columns,
          pressure_dbar: cast.columns.pressure_dbar.map(() => Number.NaN),
        },
      }),
    ];
    const { casts } = fouled;
    const oddFrom = (first: number) =>
      casts.map((cast, i) => ({ ...cast, data: odd[first + i]!(cast.data!) }));
    checkDocument(assessCruise({ ...fouled, casts: oddFrom(0) }));
    checkDocument(assessCruise({ ...fouled, casts: oddFrom(2), bottles: [] }));
  });
});

describe("a verdict and its readings", () => {
  it("a cell that reads 100 ppm higher has a gain 100 ppm higher, and the other cell is unchanged", () => {
    const shifted = assessCruise(withPrimary(sound, (c) => c * (1 + 100e-6)));
    const difference = (cell: CellName) =>
      gainsOf(shifted, cell).at(-1)! - gainsOf(onSound, cell).at(-1)!;
    // What is expected beforehand of a gain draws both, by some ppm.
    expect(Math.abs(difference("primary") - 100)).toBeLessThan(10);
    expect(Math.abs(difference("secondary"))).toBeLessThan(10);
    expect(leading(shifted, "primary").at(-1)).toBe("calibration-shift");
    expect(leading(shifted, "secondary").at(-1)).toBe("sound");
  });

  it("swapping the two cells swaps their verdicts within 10 ppm, the uncertainty of the pair", () => {
    // A bottle is used once, against the first cell; the pair, which wanders by 10 ppm, ties the second to it.
    const swapped = assessCruise(swapCells(firstOf(fouled, 2)));
    expect(leading(swapped, "secondary")).toEqual(leading(onFouled, "primary").slice(0, 2));
    expect(leading(swapped, "primary")).toEqual(leading(onFouled, "secondary").slice(0, 2));
    for (const [cell, other] of [
      ["primary", "secondary"],
      ["secondary", "primary"],
    ] as const) {
      gainsOf(swapped, cell).forEach((ppm, i) => {
        expect(Math.abs(ppm - gainsOf(onFouled, other)[i]!)).toBeLessThan(15);
      });
    }
  });
});

function scansOf(cast: Cast, from: number, to: number): Cast {
  const of = ({ temperature_C, conductivity_mS_cm }: CellColumns): CellColumns => ({
    temperature_C: temperature_C.slice(from, to),
    conductivity_mS_cm: conductivity_mS_cm.slice(from, to),
  });
  const { pressure_dbar, time_s, primary, secondary, others } = cast.columns;
  return {
    ...cast,
    columns: {
      ...(time_s === undefined ? {} : { time_s: time_s.slice(from, to) }),
      pressure_dbar: pressure_dbar.slice(from, to),
      primary: of(primary),
      ...(secondary === undefined ? {} : { secondary: of(secondary) }),
      others,
    },
  };
}

function gaps({ temperature_C, conductivity_mS_cm }: CellColumns): CellColumns {
  const none = () => Number.NaN;
  return {
    temperature_C: temperature_C.map(none),
    conductivity_mS_cm: conductivity_mS_cm.map(none),
  };
}

function withPrimary(cruise: Cruise, change: (conductivity: number) => number): Cruise {
  return {
    ...cruise,
    casts: cruise.casts.map((cast) => {
      const { columns } = cast.data!;
      const conductivity_mS_cm = columns.primary.conductivity_mS_cm.map(change);
      const primary = { ...columns.primary, conductivity_mS_cm };
      return { ...cast, data: { ...cast.data!, columns: { ...columns, primary } } };
    }),
    bottles: cruise.bottles.map((bottle): Bottle => {
      const primary = bottle.ctd?.primary;
      if (primary === undefined) return bottle;
      const conductivity_mS_cm = change(primary.conductivity_mS_cm);
      return { ...bottle, ctd: { ...bottle.ctd, primary: { ...primary, conductivity_mS_cm } } };
    }),
  };
}

function swapCells(cruise: Cruise): Cruise {
  const other = { primary: "secondary", secondary: "primary" } as const;
  return {
    ...cruise,
    casts: cruise.casts.map((cast) => {
      const { primary, secondary, ...columns } = cast.data!.columns;
      const swapped = { ...columns, primary: secondary!, secondary: primary };
      return { ...cast, data: { ...cast.data!, columns: swapped } };
    }),
    bottles: cruise.bottles.map((bottle) =>
      bottle.ctd?.primary === undefined || bottle.ctd.secondary === undefined
        ? bottle
        : { ...bottle, ctd: { primary: bottle.ctd.secondary, secondary: bottle.ctd.primary } },
    ),
    maintenance: cruise.maintenance.map((event) =>
      event.cell === undefined ? event : { ...event, cell: other[event.cell] },
    ),
  };
}
