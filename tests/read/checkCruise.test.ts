import { beforeAll, describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cruise, CruiseCast } from "../../src/cast/cruise.js";
import { readCruise } from "../../src/node/index.js";
import { checkCruise } from "../../src/read/checkCruise.js";
import { faultsOf } from "./faultsOf.js";

// The demonstration cruise is invented.
let cruise: Cruise;
beforeAll(async () => {
  cruise = await readCruise("fixtures/demo-cruise");
});

type Loose = Record<string, unknown>;
/** The cruise with its second cast changed, its data apart. */
const withCast = (change: (cast: CruiseCast) => Loose): Cruise => ({
  ...cruise,
  casts: cruise.casts.map((cast, i) => (i === 1 ? (change(cast) as unknown as CruiseCast) : cast)),
});
const withColumns = (change: (columns: Loose) => Loose): Cruise =>
  withCast(({ data, ...cast }) => ({
    ...cast,
    data: { ...data, columns: { ...data!.columns, ...change({ ...data!.columns }) } },
  }));
const withConductivity = (of: (c: number) => number): Cruise =>
  withColumns(() => {
    const { primary } = cruise.casts[1]!.data!.columns;
    return { primary: { ...primary, conductivity_mS_cm: primary.conductivity_mS_cm.map(of) } };
  });
const faults = (given: unknown) => faultsOf(() => checkCruise(given as Cruise));
const notes = (given: Cruise) =>
  checkCruise(given)
    .inputs.find(({ name }) => name === "cruise")
    ?.notes.join() ?? "";

describe("a cruise put together by a program", () => {
  it("a cruise read from files passes the check unchanged", () => {
    expect(checkCruise(cruise)).toBe(cruise);
  });

  it.each([
    ["no cruise", undefined, "casts"],
    ["a cruise without lists", {}, "casts"],
  ])("%s is refused", (_, given, column) => {
    expect(faults(given)[0]).toMatchObject({ file: "cruise", line: 0, column });
  });

  it("a cruise with S/m given as mS/cm is refused with the correction", () => {
    const [fault] = faults(withConductivity((c) => c / 10));
    expect(fault).toMatchObject({ file: "cast 002", column: "primary.conductivity_mS_cm" });
    expect(fault!.mend).toContain("10");
  });

  it("a cruise with temperature in kelvin is refused", () => {
    const { primary } = cruise.casts[1]!.data!.columns;
    const kelvin = primary.temperature_C.map((t) => t + 273.15);
    const [fault] = faults(withColumns(() => ({ primary: { ...primary, temperature_C: kelvin } })));
    expect(fault).toMatchObject({ file: "cast 002", column: "primary.temperature_C" });
  });

  it("columns of different or zero length are refused by name", () => {
    const short = withColumns(({ pressure_dbar }) => ({
      pressure_dbar: (pressure_dbar as Float64Array).slice(1),
    }));
    expect(faults(short).map(({ column }) => column)).toContain("primary.temperature_C");
    expect(faults(withColumns(() => ({ pressure_dbar: "deep" })))[0]).toMatchObject({
      column: "pressure_dbar",
      found: '"deep"',
    });
    expect(faults(withColumns(() => ({ primary: undefined }))).length).toBe(2);
    expect(faults(withCast((cast) => ({ ...cast, data: {} })))[0]!.column).toBe("data.columns");
  });

  it("plain lists give the same cruise as Float64Arrays, with null as missing", () => {
    const listed = withColumns(({ pressure_dbar }) => {
      const list: (number | null)[] = [...(pressure_dbar as Float64Array)];
      list[3] = null;
      return { pressure_dbar: list };
    });
    const { pressure_dbar } = checkCruise(listed).casts[1]!.data!.columns;
    expect(pressure_dbar).toBeInstanceOf(Float64Array);
    expect(pressure_dbar[3]).toBeNaN();
    expect(pressure_dbar[4]).toBe(cruise.casts[1]!.data!.columns.pressure_dbar[4]);
    const texts = withColumns(({ pressure_dbar: p }) => ({
      pressure_dbar: Array.from(p as Float64Array, String),
    }));
    expect(faults(texts)[0]!.found).toContain("among its values");
  });

  it.each([0, -0.001, -99, 1e20, 9.97e36, -9.99e-29, Number.POSITIVE_INFINITY])(
    "a conductivity of %d in the water is taken as missing, counted and named",
    (value) => {
      let scan = 0;
      const odd = withConductivity((c) => (scan++ === 200 ? value : c));
      const before = odd.casts[1]!.data!.columns.primary.conductivity_mS_cm;
      const after = checkCruise(odd).casts[1]!.data!.columns.primary.conductivity_mS_cm;
      expect(after[200]).toBeNaN();
      // What the caller gave stays as it is.
      expect(before[200]).toBe(value);
      expect(notes(odd)).toContain(
        "cast 002: conductivity_mS_cm: 1 reading that no sensor can give",
      );
    },
  );

  it("a repeated id, a blank id and an id with reversed text are refused", () => {
    for (const [id, found] of [
      ["001", "a second time"],
      [" ", "blank"],
      ["1\u202e2", "a change of text direction"],
      ["1\u001b[2J", "control"],
      [7, "not text"],
    ]) {
      const [fault] = faults(withCast((cast) => ({ id, data: { ...cast.data, id } })));
      expect(fault).toMatchObject({ column: "casts.1.id" });
      expect(fault!.found).toContain(found);
    }
  });

  it("one cast under two ids is refused", () => {
    const { data } = cruise.casts[0]!;
    const twice = withCast(({ id }) => ({ id, data: { ...data, id } }));
    expect(faults(twice)[0]!.found).toContain("cast 001");
  });

  it("invalid times are refused; times without zone are UTC", () => {
    expect(faults(withCast((cast) => ({ ...cast, start: "4 May" })))[0]!.column).toBe(
      "casts.1.start",
    );
    const zoneless = withCast((cast) => ({ ...cast, start: "2021-05-03T14:00:00" }));
    expect(checkCruise(zoneless).casts[1]!.start).toBe("2021-05-03T14:00:00.000Z");
  });

  it("casts out of order are sorted by time, with a note", () => {
    const turned = { ...cruise, casts: cruise.casts.toReversed() };
    expect(checkCruise(turned).casts.map(({ id }) => id)).toEqual(cruise.casts.map(({ id }) => id));
    expect(notes(turned)).toContain("order of time");
  });

  it("scans that run backwards in time are refused", () => {
    const backwards = withColumns(({ pressure_dbar }) => ({
      time_s: (pressure_dbar as Float64Array).map((_, i) => -i),
    }));
    expect(faults(backwards)[0]).toMatchObject({ file: "cast 002", column: "time_s" });
  });

  it("bottles of unknown casts are refused; cast 1 is accepted for 001", () => {
    const bottle = cruise.bottles[0]!;
    const of = (cast: string) => ({ ...cruise, bottles: [{ ...bottle, cast }] });
    expect(faults(of("099"))[0]).toMatchObject({ column: "bottles.0.cast", found: '"099"' });
    expect(checkCruise(of("1")).bottles[0]!.cast).toBe("001");
  });

  it("a bottle without pressure or with an impossible salinity is refused; a repeated bottle counts once", () => {
    const [first, second] = cruise.bottles as [Cruise["bottles"][0], Cruise["bottles"][0]];
    const bad = {
      ...cruise,
      bottles: [
        { ...first, pressure_dbar: Number.NaN },
        { ...second, salinity: 99 },
      ],
    };
    expect(faults(bad).map(({ column }) => column)).toEqual([
      "bottles.0.pressure_dbar",
      "bottles.1.salinity",
    ]);
    expect(checkCruise({ ...cruise, bottles: [first, second, { ...first }] }).bottles).toHaveLength(
      2,
    );
  });

  it("a bottle without the key of its salinity was not measured, as one with NaN", () => {
    const [first, ...others] = cruise.bottles;
    const { salinity: _, ...bare } = first!;
    const checked = checkCruise({ ...cruise, bottles: [bare as Bottle, ...others] });
    const unmeasured = { ...first!, salinity: Number.NaN };
    expect(checked.bottles).toEqual(
      checkCruise({ ...cruise, bottles: [unmeasured, ...others] }).bottles,
    );
  });

  it("closure readings in S/m are refused", () => {
    const bottles = cruise.bottles.map((bottle) => {
      const { temperature_C, conductivity_mS_cm } = bottle.ctd!.primary!;
      const primary = { temperature_C, conductivity_mS_cm: conductivity_mS_cm / 10 };
      return { ...bottle, ctd: { primary } };
    });
    expect(faults({ ...cruise, bottles })[0]!.column).toContain("conductivity_mS_cm");
  });

  it("unknown actions of the record and an invalid target are refused", () => {
    const maintenance = [{ action: "scrub", afterCast: "001" }];
    expect(faults({ ...cruise, maintenance })[0]!.column).toBe("maintenance.0.action");
    for (const target of [0, Number.NaN, 35]) {
      expect(faults({ ...cruise, target })[0]!.column).toBe("target");
    }
  });
});
