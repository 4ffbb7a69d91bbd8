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
  it("a name alone gives a cruise without casts", () => {
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

  it("casts are sorted by time if every time is known", () => {
    const casts = [
      { id: "b", start: "2031-05-04T12:00:00.000Z" },
      { id: "a", start: "2031-05-04T06:00:00.000Z" },
    ];
    const bottleCasts = [{ id: "c", start: "2031-05-04T09:00:00.000Z" }];
    const cruise = assembleCruise({ name: "x", casts, bottleCasts, inputs });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["a", "c", "b"]);
  });

  it("casts stay in the listed order if a time is missing, with a note", () => {
    const casts = [{ id: "b", start: "2031-05-04T12:00:00.000Z" }, { id: "a" }];
    const cruise = assembleCruise({ name: "x", casts, inputs });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["b", "a"]);
    expect(notes(cruise, "cruise")).toContain("cast a has no start");
  });

  it("two casts with one id are refused", () => {
    const [fault] = faultsOf(() =>
      assembleCruise({ name: "x", casts: [{ id: "a" }, { id: "a" }], inputs }),
    );
    expect(fault!.found).toContain("2 casts a");
  });

  it("a cast that only bottles name becomes a cast without data, with a note", () => {
    const cruise = assembleCruise({
      name: "x",
      casts: [{ id: "a" }],
      bottles: [bottle("z")],
      inputs,
    });
    expect(cruise.casts).toEqual([{ id: "a" }, { id: "z" }]);
    expect(notes(cruise, "bottles")).toContain("z");
  });

  it("time and place of a cast come from its bottles if the list has none", () => {
    const casts = [{ id: "a", latitude: -30 }];
    const bottleCasts = [
      { id: "a", start: "2031-05-04T06:00:00.000Z", latitude: -31, longitude: 5 },
    ];
    expect(assembleCruise({ name: "x", casts, bottleCasts, inputs }).casts).toEqual([
      { id: "a", start: "2031-05-04T06:00:00.000Z", latitude: -30, longitude: 5 },
    ]);
  });

  // Spreadsheets read 001 as a number and save 1.
  it("bottle 1 finds cast 001 if a spreadsheet removed the leading zeros, with a note", () => {
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

  it("two casts that differ only in leading zeros are not guessed between", () => {
    const casts = [{ id: "01" }, { id: "001" }];
    const cruise = assembleCruise({ name: "x", casts, bottles: [bottle("1")], inputs });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["01", "001", "1"]);
  });

  it("a record entry after an unknown cast gets a note", () => {
    const maintenance = [{ action: "rinse" as const, afterCast: "9" }];
    const cruise = assembleCruise({ name: "x", casts: [{ id: "a" }], maintenance, inputs });
    expect(notes(cruise, "maintenance")).toBe("own; entries after casts that are not known: 9");
  });
});
