import { describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import { defaultTarget } from "../../src/cast/cruise.js";
import type { InputFile } from "../../src/cast/inputFile.js";
import { assembleCruise } from "../../src/read/assembleCruise.js";
import { faultsOf } from "./faultsOf.js";

const inputs: readonly InputFile[] = [
  { name: "cruise.json", role: "cruise", rows: 2, leftOut: [], notes: [] },
  { name: "bottles.csv", role: "bottles", rows: 2, leftOut: [], notes: [] },
  { name: "maintenance.csv", role: "maintenance", rows: 1, leftOut: [], notes: ["own"] },
];
const bottle = (cast: string): Bottle => ({
  cast,
  bottle: "1",
  pressure_dbar: 900,
  salinity: 34.9,
});
const notes = (cruise: { inputs: readonly InputFile[] }, role: string) =>
  cruise.inputs.find((input) => input.role === role)!.notes.join("; ");

describe("a cruise put together", () => {
  it("from nothing but a name is a cruise without casts", () => {
    expect(assembleCruise({ name: "x", casts: [], inputs: [] })).toEqual({
      name: "x",
      casts: [],
      bottles: [],
      maintenance: [],
      instrument: {},
      target: defaultTarget,
      inputs: [],
    });
  });

  it("has its casts in order of time where every time is known", () => {
    const casts = [
      { id: "b", start: "2031-05-04T12:00:00.000Z" },
      { id: "a", start: "2031-05-04T06:00:00.000Z" },
    ];
    const bottleCasts = [{ id: "c", start: "2031-05-04T09:00:00.000Z" }];
    const cruise = assembleCruise({ name: "x", casts, bottleCasts, inputs });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["a", "c", "b"]);
  });

  it("has them as listed where a time is missing, and says so", () => {
    const casts = [{ id: "b", start: "2031-05-04T12:00:00.000Z" }, { id: "a" }];
    const cruise = assembleCruise({ name: "x", casts, inputs });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["b", "a"]);
    expect(notes(cruise, "cruise")).toContain("cast a has no start");
  });

  it("refuses two casts of one id", () => {
    const [fault] = faultsOf(() =>
      assembleCruise({ name: "x", casts: [{ id: "a" }, { id: "a" }], inputs }),
    );
    expect(fault!.found).toContain("2 casts a");
  });

  it("makes a cast without data of one that only its bottles name, and says so", () => {
    const cruise = assembleCruise({
      name: "x",
      casts: [{ id: "a" }],
      bottles: [bottle("z")],
      inputs,
    });
    expect(cruise.casts).toEqual([{ id: "a" }, { id: "z" }]);
    expect(notes(cruise, "bottles")).toContain("z");
  });

  it("takes the time and place of a cast from its bottles where the list has none", () => {
    const casts = [{ id: "a", latitude: -30 }];
    const bottleCasts = [
      { id: "a", start: "2031-05-04T06:00:00.000Z", latitude: -31, longitude: 5 },
    ];
    expect(assembleCruise({ name: "x", casts, bottleCasts, inputs }).casts).toEqual([
      { id: "a", start: "2031-05-04T06:00:00.000Z", latitude: -30, longitude: 5 },
    ]);
  });

  // Spreadsheets read 001 as a number and save 1.
  it("finds the cast of bottles and maintenance whose leading zeros a spreadsheet took, and says so", () => {
    const cruise = assembleCruise({
      name: "x",
      casts: [{ id: "001" }, { id: "010" }],
      bottles: [bottle("1"), bottle("10")],
      bottleCasts: [{ id: "1", start: "2031-05-04T06:00:00.000Z" }, { id: "10" }],
      maintenance: [{ action: "rinse", afterCast: "1" }],
      inputs,
    });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["001", "010"]);
    expect(cruise.casts[0]!.start).toBe("2031-05-04T06:00:00.000Z");
    expect(cruise.bottles.map(({ cast }) => cast)).toEqual(["001", "010"]);
    expect(cruise.maintenance[0]!.afterCast).toBe("001");
    expect(notes(cruise, "bottles")).toContain("cast 1 was taken for cast 001");
    expect(notes(cruise, "maintenance")).toContain("cast 1 was taken for cast 001");
  });

  it("does not guess between two casts that leading zeros alone tell apart", () => {
    const casts = [{ id: "01" }, { id: "001" }];
    const cruise = assembleCruise({ name: "x", casts, bottles: [bottle("1")], inputs });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["01", "001", "1"]);
  });

  it("says where an entry of the record follows a cast that is not known", () => {
    const maintenance = [{ action: "rinse" as const, afterCast: "9" }];
    const cruise = assembleCruise({ name: "x", casts: [{ id: "a" }], maintenance, inputs });
    expect(notes(cruise, "maintenance")).toBe("own; entries after casts that are not known: 9");
  });
});
