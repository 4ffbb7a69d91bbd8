import { describe, expect, it } from "vitest";
import { BadInput } from "../../../src/read/badInput.js";
import { simulateCruise } from "../../../src/simulate/index.js";
import { assessCruise } from "../../../src/verdict/assessCruise.js";
import { documentOf } from "../../../src/verdict/incremental/cruiseState.js";
import {
  addBottles,
  addCast,
  addMaintenance,
  openCruise,
} from "../../../src/verdict/incremental/openCruise.js";
import { readState, writeState } from "../../../src/verdict/incremental/stateText.js";
import { type Arrival, arrivalsOf, type Model } from "./arrivals.js";

// One cell: cruiseState.slow.test.ts has two.
const { afterStep, cruise, ofCast, opening, wholeOf } = arrivalsOf(["primary"]);
const [first, second] = cruise.casts;
const { state } = addCast(openCruise(opening), first!);

describe("a cruise that is assessed cast by cast", () => {
  it("a cruise added cast by cast has the verdicts of assessCruise to the last digit, with late data and storage between", () => {
    let carried = openCruise(opening);
    let model: Model = { casts: [], bottles: [], maintenance: [] };
    const steps: readonly Arrival[] = [
      { kind: "cast", at: 1, listed: true },
      { kind: "cast", at: 0, listed: false },
      { kind: "bottles", at: 1 },
    ];
    for (const step of steps) {
      const next = afterStep(carried, model, step);
      ({ model } = next);
      carried = readState(writeState(next.state));
    }
    expect(documentOf(carried)).toEqual(assessCruise(wholeOf(model)));
  });

  it("a second cell that appears later restarts the verdicts with both cells", () => {
    const ofBoth = arrivalsOf(["primary", "secondary"]);
    const [complete, next] = ofBoth.cruise.casts;
    const { secondary: _, ...columns } = complete!.data!.columns;
    const { cells: __, ...instrument } = ofBoth.opening.instrument;
    const one = { ...complete!, data: { ...complete!.data!, columns } };
    const bare = { ...ofBoth.opening, instrument };
    const { state: both } = addCast(addCast(openCruise(bare), one).state, next!);
    const whole = { ...bare, casts: [one, next!], bottles: [], maintenance: [], inputs: [] };
    expect(Object.keys(documentOf(both).casts[0]!.cells)).toEqual(["primary", "secondary"]);
    expect(documentOf(both)).toEqual(assessCruise(whole));
  });

  it("a cruise state contains no column of scans", () => {
    const sampling = { kind: "time-series", rate_Hz: 2 } as const;
    const { cruise: one } = simulateCruise({
      ...{ seed: 2, casts: 1, cells: ["primary"], deepest_dbar: 1100, sampling },
    });
    const [cast] = one.casts;
    const { state: held } = addCast(openCruise(opening), cast!);
    const { length } = cast!.data!.columns.pressure_dbar;
    const lengths = new Set<number>();
    const seen = new Set<unknown>();
    const walk = (value: unknown): void => {
      if (typeof value !== "object" || value === null || seen.has(value)) return;
      seen.add(value);
      if (Array.isArray(value) || ArrayBuffer.isView(value)) {
        lengths.add((value as ArrayLike<unknown>).length);
      }
      if (ArrayBuffer.isView(value)) return;
      for (const part of value instanceof Map ? [...value].flat() : Object.values(value))
        walk(part);
    };
    walk(held);
    expect(length).toBeGreaterThan(1000);
    expect(Math.max(...lengths)).toBeLessThan(length);
    // A copy can be made of plain values only: functions are refused.
    expect(() => structuredClone(held)).not.toThrow();
  });

  it("adding data does not change the state that was given", () => {
    const before = writeState(state);
    addCast(state, second!);
    addMaintenance(state, cruise.maintenance);
    expect(writeState(state)).toBe(before);
  });
});

describe("the data that a cruise in progress refuses", () => {
  const faultOf = (call: () => unknown) => {
    try {
      call();
    } catch (error) {
      if (error instanceof BadInput) return error.faults[0]!;
      throw error;
    }
    return undefined;
  };

  it("a bottle that was not listed with its cast is refused until its scans are given again", () => {
    const bottles = ofCast(first!.id);
    const fault = faultOf(() => addBottles(state, bottles));
    expect(fault?.column).toBe("bottles");
    expect(fault?.mend).toContain("scans of this cast once more");
    expect(faultOf(() => addBottles(state, bottles, [first!.data!]))).toBeUndefined();
  });

  it("other scans under the id of a known cast are refused", () => {
    const other = { ...second!.data!, id: first!.id };
    expect(faultOf(() => addBottles(state, [], [other]))?.found).toContain("scans that differ");
  });

  it("a cast given twice is refused, under its own id or another", () => {
    expect(faultOf(() => addCast(state, first!))?.found).toContain("a second time");
    const again = { ...first!, id: "900", data: { ...first!.data!, id: "900" } };
    expect(faultOf(() => addCast(state, again))?.found).toContain(`scans of cast ${first!.id}`);
  });

  it("a cruise in progress refuses everything that the readers refuse", () => {
    const bottle = { ...ofCast(first!.id)[0]!, pressure_dbar: 1e6 };
    const fault = faultOf(() => addBottles(state, [bottle], [first!.data!]));
    const whole = wholeOf({ casts: [first!], bottles: [bottle], maintenance: [] });
    expect(fault).toEqual(faultOf(() => assessCruise(whole)));
    expect(fault).toBeDefined();
  });
});
