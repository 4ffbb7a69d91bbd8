import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readBottlesCsv } from "../../src/read/bottlesCsv.js";
import { cFromSp, spFromC } from "../../src/seawater/index.js";
import { faultsOf } from "./faultsOf.js";

const read = (text: string) => readBottlesCsv(text, { file: "bottles.csv" });
const head = "cast,bottle,pressure_dbar,salinity";

describe("a bottles table", () => {
  it("a bottles table needs only cast, bottle, pressure and salinity", () => {
    const { bottles, casts } = read(`${head}\n001,7,1500.2,34.9123\n`);
    expect(bottles).toEqual([
      { cast: "001", bottle: "7", pressure_dbar: 1500.2, salinity: 34.9123, line: 2 },
    ]);
    expect(casts).toEqual([{ id: "001" }]);
  });

  it("the start of a cast is the first one in its bottle rows", () => {
    const rows = ["001,1,9,35,", "001,2,8,35,2031-05-04T08:00Z", "001,3,7,35,2031-05-04T09:00Z"];
    expect(read([`${head},start`, ...rows].join("\n")).casts).toEqual([
      { id: "001", start: "2031-05-04T08:00:00.000Z" },
    ]);
  });

  it("a bottles table without a required column is refused with its name", () => {
    const faults = faultsOf(() => read("cast,pressure_dbar,sal\n1,2,3\n"));
    expect(faults.map(({ column }) => column)).toEqual(["bottle", "salinity"]);
  });

  it("an unmeasured bottle salinity is missing, never zero", () => {
    const { bottles, input } = read(`${head}\n001,7,1500,\n001,8,900,-999\n`);
    expect(bottles.map(({ salinity }) => salinity)).toEqual([Number.NaN, Number.NaN]);
    expect(input.leftOut).toEqual([]);
  });

  it("a faulty bottle row is excluded and listed with line and reason; the others stay", () => {
    const rows = [
      "001,7,1500,34.9",
      "001,8,deep,34.9",
      "001,9,900,349.1",
      ",10,800,34.8",
      "001,11,700,34.7",
    ];
    const { bottles, input } = read([head, ...rows].join("\n"));
    expect(bottles.map(({ bottle }) => bottle)).toEqual(["7", "11"]);
    expect(input.rows).toBe(5);
    expect(input.leftOut.map(({ line }) => line)).toEqual([3, 4, 5]);
    expect(input.leftOut[0]!.why).toContain("deep");
  });

  it("a row that lacks a cell is never shifted under other headings", () => {
    const { bottles, input } = read(`${head},flag\n001,7,1500,34.9,2\n001,1500,34.9,2\n`);
    expect(bottles).toHaveLength(1);
    expect(input.leftOut[0]!.line).toBe(3);
  });

  it("a bottles table without a usable row is refused with the faults of the rows", () => {
    const faults = faultsOf(() => read(`${head}\n001,7,deep,34.9\n001,8,deeper,34.9\n`));
    expect(faults.map(({ line }) => line)).toEqual([2, 3]);
  });

  it("a bottles table gives the CTD readings of both cells at closure", () => {
    const more =
      "ctd_temperature_C,ctd_conductivity_mS_cm,ctd_temperature2_C,ctd_conductivity2_mS_cm";
    const { bottles } = read(
      `${head},${more}\n001,7,1500,34.9,4.1,33.2,4.2,33.3\n001,8,900,34.9,,,4.2,33.3\n`,
    );
    expect(bottles[0]!.ctd).toEqual({
      primary: { temperature_C: 4.1, conductivity_mS_cm: 33.2 },
      secondary: { temperature_C: 4.2, conductivity_mS_cm: 33.3 },
    });
    expect(Object.keys(bottles[1]!.ctd!)).toEqual(["secondary"]);
  });

  it("bottle readings in S/m equal those in mS/cm", () => {
    const { bottles } = read(
      `${head},ctd_temperature_C,ctd_conductivity_S_m\n001,7,1500,34.9,4.1,3.32\n`,
    );
    expect(bottles[0]!.ctd!.primary!.conductivity_mS_cm).toBeCloseTo(33.2, 12);
  });

  it("bottle readings in S/m under a heading in mS/cm are refused with the right heading", () => {
    const rows = [500, 1000, 1500].map(
      (p) => `001,${p},${p},34.9,4.1,${cFromSp(34.9, 4.1, p) / 10}`,
    );
    const [fault] = faultsOf(() =>
      read([`${head},ctd_temperature_C,ctd_conductivity_mS_cm`, ...rows].join("\n")),
    );
    expect(fault).toMatchObject({ column: "ctd_conductivity_mS_cm" });
    expect(fault!.mend).toContain("ctd_conductivity_S_m");
  });

  it("closure conductivity is rebuilt from CTD salinity if only that is given, with a note", () => {
    const { bottles, input } = read(
      `${head},ctd_temperature_C,ctd_salinity\n001,7,1500,34.9,4.1,34.907\n`,
    );
    const { temperature_C, conductivity_mS_cm } = bottles[0]!.ctd!.primary!;
    expect(spFromC(conductivity_mS_cm, temperature_C, 1500)).toBeCloseTo(34.907, 10);
    expect(input.notes.join()).toContain("ctd_salinity");
  });

  it("a bottle time without zone is UTC, with a note", () => {
    const { casts, input } = read(`${head},start\n001,7,1500,34.9,2031-05-04 12:30\n`);
    expect(casts[0]!.start).toBe("2031-05-04T12:30:00.000Z");
    expect(input.notes.join()).toMatch(/start.*UTC/);
  });

  it("start and place of a cast come from any of its bottle rows", () => {
    const { casts } = read(
      `${head},start,latitude,longitude\n001,7,1500,34.9,,,\n001,8,900,34.9,2031-05-04T12:30Z,-31.5,12\n`,
    );
    expect(casts).toEqual([
      { id: "001", start: "2031-05-04T12:30:00.000Z", latitude: -31.5, longitude: 12 },
    ]);
  });
});

const data = new URL("../../../shared/data/", import.meta.url);
describe("open data: bottles beside two cells", () => {
  // Counts as the files' own descriptions give them.
  it.skipIf(!existsSync(data)).each([
    ["subpolar-atlantic-ar7-01", 81, 6],
    ["subpolar-atlantic-at30-01", 174, 9],
    ["subpolar-atlantic-kn221-04", 102, 7],
  ])("%s has %i bottles, and laboratory salinities on %i casts", (folder, rows, sampled) => {
    const { bottles, casts, input } = read(
      readFileSync(new URL(`${folder}/bottles.csv`, data), "utf8"),
    );
    expect(input).toMatchObject({ rows, leftOut: [] });
    expect(bottles).toHaveLength(rows);
    const measured = bottles.filter(({ salinity }) => !Number.isNaN(salinity));
    expect(new Set(measured.map(({ cast }) => cast)).size).toBe(sampled);
    expect(
      bottles.every(({ ctd }) => ctd?.primary !== undefined && ctd.secondary !== undefined),
    ).toBe(true);
    expect(casts.every(({ start }) => start?.endsWith("Z"))).toBe(true);
  });
});
