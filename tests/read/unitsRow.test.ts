// Tables with a line of units below the headings, as servers of open data write them: the layout is that of ERDDAP's CSV,
// from memory; names are standard names [CFStandardNames2023]. The cast is invented.
import { describe, expect, it } from "vitest";
import { readCastCsv } from "../../src/read/castCsv.js";
import { sniff } from "../../src/read/sniff.js";
import { faultsOf } from "./faultsOf.js";

const facts = { id: "1", file: "a.csv" };
const served = `time,latitude,longitude,sea_water_pressure,sea_water_temperature,sea_water_electrical_conductivity
UTC,degrees_north,degrees_east,dbar,degree_C,S m-1
2031-05-04T12:30:00Z,-31.5,12.25,10.0,12.0,4.0
2031-05-04T12:30:00Z,-31.5,12.25,20.0,11.0,3.9
2031-05-04T12:30:00Z,-31.5,12.25,30.0,10.0,3.8
`;

describe("a table with a line of units", () => {
  it("a table with standard names and units is a cast with time and place", () => {
    expect(sniff(served)).toBe("cast");
    const { cast, input } = readCastCsv(served, facts);
    expect([...cast.columns.pressure_dbar]).toEqual([10, 20, 30]);
    expect([...cast.columns.primary.conductivity_mS_cm]).toEqual([40, 39, 38]);
    expect(cast).toMatchObject({
      start: "2031-05-04T12:30:00.000Z",
      latitude: -31.5,
      longitude: 12.25,
    });
    expect(input.leftOut).toEqual([]);
    expect(input.notes.join("\n")).toMatch(/converted from S m-1/);
    expect(input.rows).toBe(3);
  });

  it("pascal and kelvin are converted, and facts given by the caller override the file", () => {
    const text = served
      .replace("dbar,degree_C", "Pa,K")
      .replace(/,(\d0)\.0,(1\d)\.0,/g, (_, p, t) => `,${p}0000,${Number(t) + 273.15},`);
    const { cast } = readCastCsv(text, { ...facts, latitude: 1 });
    expect([...cast.columns.pressure_dbar]).toEqual([10, 20, 30]);
    expect(cast.columns.primary.temperature_C[0]).toBeCloseTo(12, 9);
    expect(cast.latitude).toBe(1);
  });

  it("salinity with the unit 1 is read", () => {
    const text = served
      .replace("electrical_conductivity", "practical_salinity")
      .replace("S m-1", "1")
      .replace(/,(4\.0|3\.\d)\n/g, ",35.0\n");
    const { cast, input } = readCastCsv(text, facts);
    expect(cast.conductivityFrom).toBe("salinity");
    expect(input.rows).toBe(3);
  });

  it("other headings are read with --column, in the units of the file", () => {
    const text = served.replace(
      "sea_water_pressure,sea_water_temperature,sea_water_electrical_conductivity",
      "P,T,C",
    );
    expect(faultsOf(() => readCastCsv(text, facts)).length).toBeGreaterThan(0);
    const mapping = { pressure_dbar: "P", temperature_C: "T", conductivity_mS_cm: "C" };
    const { cast } = readCastCsv(text, { ...facts, mapping });
    expect([...cast.columns.primary.conductivity_mS_cm]).toEqual([40, 39, 38]);
    const siemens = { ...mapping, conductivity_mS_cm: undefined, conductivity_S_m: "C" };
    const { conductivity_mS_cm: _, ...own } = siemens;
    const again = readCastCsv(text, { ...facts, mapping: own });
    expect([...again.cast.columns.primary.conductivity_mS_cm]).toEqual([40, 39, 38]);
  });

  it("a unit that contradicts the heading, or is unknown, is refused", () => {
    const ours = served.replace("sea_water_temperature", "temperature_C").replace("degree_C", "K");
    expect(faultsOf(() => readCastCsv(ours, facts))).toMatchObject([
      { line: 1, column: "temperature_C", found: 'the unit "K" below it' },
    ]);
    const unknown = served.replace("degree_C", "degF");
    expect(faultsOf(() => readCastCsv(unknown, facts))).toMatchObject([
      { line: 1, column: "sea_water_temperature" },
    ]);
  });

  it("a table of several profiles, with rows far apart, is refused", () => {
    const text = `${served}2031-05-05T12:30:00Z,-32.5,12.25,10.0,12.0,4.0\n`;
    const [fault] = faultsOf(() => readCastCsv(text, facts));
    expect(fault).toMatchObject({
      column: "latitude, longitude",
      found: "positions up to 1.00 degrees apart",
    });
  });

  it("without a line of units, standard names are ordinary headings", () => {
    const text = served
      .split("\n")
      .filter((_, k) => k !== 1)
      .join("\n");
    expect(faultsOf(() => readCastCsv(text, facts)).map(({ column }) => column)).toContain(
      "pressure_dbar",
    );
  });
});
