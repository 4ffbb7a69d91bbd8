import { existsSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CastFacts } from "../../src/read/castBuilder.js";
import { readCastCsv } from "../../src/read/castCsv.js";
import { cFromSp, spFromC } from "../../src/seawater/index.js";
import { faultsOf } from "./faultsOf.js";

const facts = { id: "001", file: "001.csv" };
const read = (text: string, more: Partial<CastFacts> = {}) =>
  readCastCsv(text, { ...facts, ...more });

/** An invented profile: salinity and temperature by depth, lowered and recovered. */
function profile(
  sp: (p: number) => number,
  t: (p: number) => number,
  deepest: number,
): readonly { p: number; t: number; c: number }[] {
  const down = Array.from({ length: 40 }, (_, i) => (deepest * (i + 1)) / 40);
  return [...down, ...down.toReversed()].map((p) => ({ p, t: t(p), c: cFromSp(sp(p), t(p), p) }));
}
const ocean = profile(
  () => 35,
  (p) => 20 * Math.exp(-p / 800) + 2,
  4000,
);
/** Lowered and recovered at 1 dbar/s. */
const secondAt = (rows: readonly { p: number }[], at: number) =>
  rows
    .slice(1, at + 1)
    .reduce((sum, { p }, i) => sum + Math.max(0.001, Math.abs(p - rows[i]!.p)), 0);
const text = (
  rows: readonly { p: number; t: number; c: number }[],
  heading = "conductivity_mS_cm",
  scale = 1,
) =>
  [`time_s,pressure_dbar,temperature_C,${heading}`]
    .concat(
      rows.map(
        ({ p, t, c }, i) => `${secondAt(rows, i)},${p},${t.toFixed(4)},${(c * scale).toFixed(6)}`,
      ),
    )
    .join("\n");

describe("a cast as a table", () => {
  it("a cast table gives columns in dbar, ITS-90 degree C and mS/cm", () => {
    const { cast, input } = read(text(ocean));
    expect(cast.columns.pressure_dbar[0]).toBe(100);
    expect(cast.columns.primary.conductivity_mS_cm[0]).toBeCloseTo(ocean[0]!.c, 6);
    expect(cast.conductivityFrom).toBe("measured");
    expect(input).toMatchObject({ name: "001.csv", role: "cast", rows: 80, leftOut: [] });
  });

  it("a cast in S/m equals the cast in mS/cm (1 S/m is 10 mS/cm)", () => {
    const milli = read(text(ocean)).cast.columns.primary.conductivity_mS_cm;
    const siemens = read(text(ocean, "conductivity_S_m", 0.1)).cast.columns.primary;
    siemens.conductivity_mS_cm.forEach((c, i) => {
      expect(c).toBeCloseTo(milli[i]!, 4);
    });
  });

  it("a cast with other headings is read with a mapping", () => {
    const odd = text(ocean).replace(/^.*$/m, "t,pr,temp,cond");
    const mapping = {
      time_s: "t",
      pressure_dbar: "pr",
      temperature_C: "temp",
      conductivity_mS_cm: "cond",
    };
    expect(read(odd, { mapping }).cast.columns).toEqual(read(text(ocean)).cast.columns);
  });

  it("missing headings of a cast are all named", () => {
    const faults = faultsOf(() => read("depth_m,temp\n1,2\n"));
    expect(faults.map(({ column }) => column)).toEqual([
      "pressure_dbar",
      "temperature_C",
      "conductivity_mS_cm",
    ]);
    expect(faults.every(({ line, found }) => line === 1 && found.includes("depth_m"))).toBe(true);
  });

  it("a mapping to a missing heading is refused by name", () => {
    const faults = faultsOf(() => read(text(ocean), { mapping: { temperature_C: "temp" } }));
    expect(faults.map(({ column }) => column)).toContain("temp");
  });

  it("a faulty cell of a cast row is missing and listed; the row stays", () => {
    const lines = text(ocean).split("\n");
    lines[5] = "4,500,about 12,37.1";
    lines[9] = "8,900,,37.1";
    const { cast, input } = read(lines.join("\n"));
    expect(cast.columns.pressure_dbar).toHaveLength(80);
    expect(cast.columns.primary.temperature_C[4]).toBeNaN();
    expect(cast.columns.primary.temperature_C[8]).toBeNaN();
    expect(cast.columns.primary.conductivity_mS_cm[4]).toBe(37.1);
    // A blank cell is missing and no fault.
    expect(input.leftOut.map(({ line }) => line)).toEqual([6]);
    expect(input.leftOut[0]!.why).toContain("about 12");
  });

  it("a short row is not shifted to the left", () => {
    const lines = text(ocean).split("\n");
    // The pressure is lost: temperature and conductivity stand one column to the left.
    lines[5] = "4,12.5,37.1";
    const { cast, input } = read(lines.join("\n"));
    expect(cast.columns.pressure_dbar).toHaveLength(80);
    expect(cast.columns.pressure_dbar[4]).toBeNaN();
    expect(cast.columns.primary.temperature_C[4]).toBeNaN();
    expect(input.leftOut.map(({ line }) => line)).toEqual([6]);
  });

  it("a quoted decimal comma is refused with advice on the decimal sign", () => {
    const commas = text(ocean).replace(/,(\d+)\.(\d+)/g, ',"$1,$2"');
    const faults = faultsOf(() => read(commas));
    expect(faults[0]!.mend).toMatch(/point.*comma/i);
    expect(faults[0]!.line).toBeGreaterThan(1);
  });

  it.each([
    ["semicolons", ";", "semicolons"],
    ["tabs", "\t", "tabs"],
    ["blanks", "  ", "blanks"],
  ])("with %s between the cells is the same cast, and that is noted", (_, sign, said) => {
    const { cast, input } = read(text(ocean).replaceAll(",", sign));
    expect(cast).toEqual(read(text(ocean)).cast);
    expect(input.notes.join()).toContain(said);
  });

  it.each([
    ["semicolons", ";"],
    ["tabs", "\t"],
  ])("with %s and decimal commas is the same cast, and both are noted", (_, sign) => {
    const commas = text(ocean).replaceAll(",", sign).replaceAll(".", ",");
    const { cast, input } = read(commas);
    expect(cast).toEqual(read(text(ocean)).cast);
    expect(input.notes.join()).toContain("decimal commas");
  });

  it("a cast with both decimal points and decimal commas is refused", () => {
    const lines = text(ocean).replaceAll(",", ";").split("\n");
    lines[4] = lines[4]!.replace(".", ",");
    const { input } = read(lines.join("\n"));
    expect(input.leftOut.map(({ line }) => line)).toEqual([5]);
    expect(input.notes.join()).not.toContain("decimal commas");
  });

  it("a cast below a preamble is found, with the line numbers of the file", () => {
    const before = "An invented logger\nstarted 2031-05-04, by nobody\n\n";
    const broken = `${before}${text(ocean).replace("\n400,", "\nx,")}`;
    const { cast, input } = read(broken);
    expect(cast.columns.pressure_dbar).toHaveLength(80);
    expect(input.notes.join()).toContain("3 lines before the headings");
    expect(input.leftOut.map(({ line }) => line)).toEqual([9]);
  });

  it("a line of units below the headings is not a row", () => {
    const [head, ...rows] = text(ocean).split("\n");
    const { cast, input } = read([head, "s,dbar,degree_C,mS/cm", ...rows].join("\n"));
    expect(cast).toEqual(read(text(ocean)).cast);
    expect(input).toMatchObject({ rows: 80, leftOut: [] });
    expect(input.notes.join()).toContain("units");
  });

  it("unknown headings get suggestions by name, unit and range", () => {
    const odd = text(ocean).replace(/^.*$/m, "t,Pres [dbar],Temp (deg C),Cond");
    const mends = faultsOf(() => read(odd)).map(({ mend }) => mend);
    expect(mends[0]).toContain("--column 'pressure_dbar=Pres [dbar]'");
    expect(mends[0]).toContain("values from 100 to");
    expect(mends[1]).toContain("temperature_C=Temp (deg C)");
    expect(mends[2]).toContain("--column conductivity_mS_cm=Cond");
  });

  it("unknown conductivities below 8 get the suggestion S/m", () => {
    const odd = text(ocean, "Cond", 0.1);
    expect(faultsOf(() => read(odd))[0]!.mend).toContain("conductivity_S_m=Cond");
  });

  it("a similar heading with values out of range gets no suggestion", () => {
    const odd = text(ocean).replace("pressure_dbar", "pressure_code").replace("temperature_C", "x");
    const huge = odd.replace(/^(\d+),(\d+),/gm, "$1,900$2,");
    expect(faultsOf(() => read(huge))[0]!.mend).not.toContain("Did you mean");
  });

  it("a file that ends within a number loses that number, with a note", () => {
    const cut = text(ocean).slice(0, -4);
    const { cast, input } = read(cut);
    expect(cast.columns.primary.conductivity_mS_cm.at(-1)).toBeNaN();
    expect(cast.columns.primary.conductivity_mS_cm.at(-2)).not.toBeNaN();
    expect(input.notes.join()).toContain("ends within its last number");
    // Written to its end it may lack the last end of line.
    expect(read(text(ocean)).input.notes.join()).not.toContain("last number");
  });

  it("a cast with scans in reverse order is refused", () => {
    const [head, ...rows] = text(ocean).split("\n");
    const [fault] = faultsOf(() => read([head, ...rows.toReversed()].join("\n")));
    expect(fault).toMatchObject({ column: "time_s" });
    const byScan = [head!.replace("time_s", "scan"), ...rows.toReversed()].join("\n");
    expect(faultsOf(() => read(byScan))[0]).toMatchObject({ column: "scan" });
  });

  it.each([
    ["0", "conductivity_mS_cm"],
    ["-0.001", "conductivity_mS_cm"],
    ["-99", "temperature_C"],
    ["1e20", "temperature_C"],
    ["9.97e36", "pressure_dbar"],
    ["9.969209968386869e36", "conductivity_mS_cm"],
    ["-9.99e-29", "temperature_C"],
    ["-9.99e-29", "conductivity_mS_cm"],
  ])("has %s in %s taken as missing in the water, counted and named", (value, name) => {
    const [head, ...rows] = text(ocean).split("\n");
    const place = head!.split(",").indexOf(name);
    const cells = rows[40]!.split(",");
    cells[place] = value;
    rows[40] = cells.join(",");
    const { cast, input } = read([head, ...rows].join("\n"));
    const { pressure_dbar, primary } = cast.columns;
    const column = { pressure_dbar, ...primary }[name]!;
    expect(column[40]).toBeNaN();
    expect(column[39]).not.toBeNaN();
    expect(input.notes.join()).toMatch(new RegExp(`${name}: 1 reading that no sensor can give`));
  });

  it("readings of a cell in air on deck are kept", () => {
    const deck = Array.from({ length: 5 }, () => ({ p: -0.3, t: 24, c: -0.001 }));
    const { cast } = read(text([...deck, ...ocean]));
    expect(cast.columns.primary.conductivity_mS_cm[2]).toBe(-0.001);
  });

  it("unknown columns, and salinity together with conductivity, are kept unchanged", () => {
    const lines = text(ocean).split("\n");
    const wide = lines.map((line, i) => (i === 0 ? `${line},o2,salinity` : `${line},0${i},35.0`));
    const { others } = read(wide.join("\n")).cast.columns;
    expect(others.o2?.slice(0, 2)).toEqual(["01", "02"]);
    expect(others.salinity?.[0]).toBe("35.0");
  });

  it("IPTS-68 temperatures are converted when read: t90 = t68 / 1.00024 [Saunders1990]", () => {
    const { cast, input } = read(text(ocean), { temperatureScale: "IPTS-68" });
    const t = Number(ocean[0]!.t.toFixed(4));
    expect(cast.columns.primary.temperature_C[0]).toBeCloseTo(t / 1.00024, 9);
    expect(input.notes.join()).toContain("IPTS-68");
  });

  it("a cast without conductivity has it rebuilt from salinity, with a note", () => {
    const rows = ocean.map(({ p, t }) => `${p},${t.toFixed(4)},35`);
    const { cast, input } = read(["pressure_dbar,temperature_C,salinity", ...rows].join("\n"));
    expect(cast.conductivityFrom).toBe("salinity");
    expect(input.notes.join()).toContain("salinity");
    const { pressure_dbar: p, primary } = cast.columns;
    p.forEach((_, i) => {
      const back = spFromC(primary.conductivity_mS_cm[i]!, primary.temperature_C[i]!, p[i]!);
      expect(back).toBeCloseTo(35, 9);
    });
  });

  it("for a second cell without its thermometer, a message names temperature2_C", () => {
    const wide = text(ocean)
      .split("\n")
      .map((line, i) => (i === 0 ? `${line},conductivity2_mS_cm` : `${line},37.2`));
    let said = "";
    try {
      const { cast, input } = read(wide.join("\n"));
      expect(cast.columns.secondary).toBeUndefined();
      expect(cast.columns.others.conductivity2_mS_cm?.[0]).toBe("37.2");
      said = input.notes.join();
    } catch (error) {
      said = String(error);
    }
    expect(said).toContain("temperature2_C");
  });
});

// Ranges of conductivity in sea water: 20 to 65 mS/cm in the ocean; a Baltic, an estuary, a hot salt lagoon lie
// outside and are no mistake (common knowledge, no source).
describe("units when a cast is read", () => {
  const shelf = (sp: number, warm: number, deepest: number) =>
    profile(
      (p) => sp + p / deepest,
      (p) => warm - (3 * p) / deepest,
      deepest,
    );

  it.each([
    ["an open ocean", ocean],
    ["a Baltic of salinity 7", shelf(7, 8, 100)],
    ["a Bothnian Bay of salinity 3 in winter", shelf(2.5, 3.2, 60)],
    ["an estuary of salinity 1", shelf(0.6, 15, 12)],
    ["a hot lagoon of salinity 44", shelf(43, 33, 8)],
    [
      "a polar sea below 0 degree C",
      profile(
        (p) => 32 + p / 500,
        () => -1.6,
        1000,
      ),
    ],
  ])("%s in mS/cm is taken as it is", (_, rows) => {
    expect(faultsOf(() => read(text(rows)))).toEqual([]);
    expect(faultsOf(() => read(text(rows, "conductivity_S_m", 0.1)))).toEqual([]);
  });

  it("S/m under a heading in mS/cm is refused with the right heading", () => {
    const [fault] = faultsOf(() => read(text(ocean, "conductivity_mS_cm", 0.1)));
    expect(fault).toMatchObject({ column: "conductivity_mS_cm" });
    expect(fault!.mend).toContain("conductivity_S_m");
  });

  it("mS/cm under a heading in S/m is refused with the right heading", () => {
    const [fault] = faultsOf(() => read(text(ocean, "conductivity_S_m", 1)));
    expect(fault).toMatchObject({ column: "conductivity_S_m" });
    expect(fault!.mend).toContain("conductivity_mS_cm");
  });

  it("a microsiemens column is not taken for mS/cm", () => {
    expect(faultsOf(() => read(text(ocean, "conductivity_mS_cm", 1000)))).toHaveLength(1);
  });

  it("exchanged temperature and conductivity are refused by name", () => {
    const swapped = text(ocean).replace(
      "temperature_C,conductivity_mS_cm",
      "conductivity_mS_cm,temperature_C",
    );
    const [fault] = faultsOf(() => read(swapped));
    expect(fault!.mend).toMatch(/swapped|exchange/);
  });

  it("exchanged columns of the second cell are refused too", () => {
    const wide = text(ocean)
      .split("\n")
      .map((line, i) =>
        i === 0
          ? `${line},temperature2_C,conductivity2_mS_cm`
          : `${line},${ocean[i - 1]!.t},${ocean[i - 1]!.c / 10}`,
      );
    const [fault] = faultsOf(() => read(wide.join("\n")));
    expect(fault).toMatchObject({ column: "conductivity2_mS_cm" });
  });

  it.each([
    ["reads nothing", 0.0001],
    ["reads noise", 0.3],
    ["reads full scale", 72],
  ])("a second cell that %s does not keep the first from being read", (_, c) => {
    const wide = text(ocean)
      .split("\n")
      .map((line, i) =>
        i === 0
          ? `${line},temperature2_C,conductivity2_mS_cm`
          : `${line},${ocean[i - 1]!.t},${(c * (1 + 0.01 * Math.sin(i))).toFixed(5)}`,
      );
    const { cast, input } = read(wide.join("\n"));
    expect(cast.columns.primary.conductivity_mS_cm[0]).toBeGreaterThan(30);
    if (c > 70) expect(input.notes.join()).toContain("conductivity2_mS_cm");
  });

  it("temperature in kelvin is not taken for degree C", () => {
    const odd = text(ocean.map((row) => ({ ...row, t: row.t + 273.15 })));
    expect(faultsOf(() => read(odd)).map(({ column }) => column)).toEqual(["temperature_C"]);
  });

  it.each([
    ["Pa", 10_000],
    ["kPa", 10],
    ["heights, negative downward", -1],
  ])("pressure in %s is not taken for dbar", (_, scale) => {
    const odd = text(ocean.map((row) => ({ ...row, p: row.p * scale })));
    expect(faultsOf(() => read(odd)).map(({ column }) => column)).toContain("pressure_dbar");
  });

  it("readings on deck are not taken for wrong units", () => {
    const deck = Array.from({ length: 60 }, () => ({ p: -0.3, t: 24, c: 0.001 }));
    expect(faultsOf(() => read(text([...deck, ...ocean, ...deck])))).toEqual([]);
  });

  it("one impossible pressure is not taken for a wrong unit", () => {
    const wild = ocean.map((row, i) => (i === 20 ? { ...row, p: 1e35 } : row));
    expect(faultsOf(() => read(text(wild)))).toEqual([]);
  });

  it.each([
    ["S/m", 0.1],
    ["mS/cm", 1],
  ])(
    "brackish shallow water that may be salt water in S/m is taken as %s says, and asked about",
    (_, scale) => {
      const shallow = scale === 0.1 ? shelf(34, 9, 40) : shelf(2.9, 4, 40);
      const { input } = read(text(shallow, "conductivity_mS_cm", scale));
      expect(input.notes.join()).toContain("conductivity_S_m");
    },
  );

  // Warm water of low salinity is found at the surface of estuaries and lagoons only.
  it("seas of salinity 1 to 42 are never taken for a wrong unit", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 42, noNaN: true }),
        fc.double({ min: 0, max: 32, noNaN: true }),
        fc.double({ min: 5, max: 450, noNaN: true }),
        (sp, warm, deep) => {
          const deepest = sp < 5 ? Math.min(deep, 150) : deep;
          const t = sp < 15 && deepest > 40 ? Math.min(warm, 24) : warm;
          const rows = profile(
            () => sp,
            () => t,
            deepest,
          );
          expect(faultsOf(() => read(text(rows)))).toEqual([]);
        },
      ),
      { seed: 20310504, numRuns: 100 },
    );
  });
});

const coastal = new URL("../../../shared/data/coastal-two-leg/", import.meta.url);
describe("open data", () => {
  it.skipIf(!existsSync(coastal)).each(["station_46", "station_48", "station_50", "station_51"])(
    "the coastal cast %s reads whole, salinity that of the western Channel",
    (name) => {
      const csv = readFileSync(new URL(`${name}.csv`, coastal), "utf8");
      const { cast, input } = read(csv, { file: name });
      expect(input.rows).toBe(csv.trim().split("\n").length - 1);
      expect(input.leftOut).toEqual([]);
      const { pressure_dbar: p, primary } = cast.columns;
      const sp = spFromC(primary.conductivity_mS_cm[10]!, primary.temperature_C[10]!, p[10]!);
      expect(sp).toBeGreaterThan(34.5);
      expect(sp).toBeLessThan(35.5);
    },
  );
});
