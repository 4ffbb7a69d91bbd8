import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readExchangeBottles } from "../../src/read/exchangeBottles.js";
import { readExchangeCast } from "../../src/read/exchangeCast.js";
import { sniff } from "../../src/read/sniff.js";
import { spFromC } from "../../src/seawater/index.js";
import { faultsOf } from "./faultsOf.js";

// Rules of the format are those of its description [CCHDO2022]; the two cruises below are invented.
const ct1 = `CTD,20310504XXINVENTED
# an invented cast
NUMBER_HEADERS = 9
EXPOCODE = 99ZZ20310503
STNNBR = 12
CASTNO = 3
DATE = 20310504
TIME = 0905
LATITUDE = -31.5000
LONGITUDE = 12.2500
DEPTH = 4100
CTDPRS,CTDPRS_FLAG_W,CTDTMP,CTDTMP_FLAG_W,CTDSAL,CTDSAL_FLAG_W,CTDOXY
DBAR,,ITS-90,,PSS-78,,UMOL/KG
     2.0,2, 18.1000,2, 35.5000,2,  220.1
     4.0,2, 18.0900,2, 35.5010,4,  220.0
     6.0,2, 18.0800,2,-999.0000,9, -999.0
END_DATA
whatever may follow, "unquoted
`;
const hy1 = `BOTTLE,20310601XXINVENTED
# an invented cruise
EXPOCODE,STNNBR,CASTNO,SAMPNO,BTLNBR,BTLNBR_FLAG_W,DATE,TIME,LATITUDE,LONGITUDE,CTDPRS,CTDTMP,CTDSAL,CTDSAL_FLAG_W,SALNTY,SALNTY_FLAG_W
,,,,,,,,,,DBAR,ITS-90,PSS-78,,PSS-78,
99ZZ20310503,   12,  3,  1,  1,2,20310504,0905, -31.5, 12.25, 3000.5, 2.1000, 34.8990,2, 34.9010,2
99ZZ20310503,   12,  3,  2,  2,4,20310504,0905, -31.5, 12.25, 2000.5, 3.1000, 34.9190,2, 34.9010,4
99ZZ20310503,   12,  3,  3,  3,2,20310504,0905, -31.5, 12.25, 1000.5, 5.1000, 34.8000,4, 34.8010,2
99ZZ20310503,   12,  3,  4,  4,2,20310504,0905, -31.5, 12.25,  500.5, 9.1000, 34.7000,2,-999.0000,9
99ZZ20310503,  T1A,  1,  5, N5,2,20310505,1200, -32.0, 12.25,  500.5, 9.1000, 34.7000,2, 34.7010,6
END_DATA
`;
const cast = (text: string) => readExchangeCast(text, { file: "12_3_ct1.csv" });
const bottles = (text: string) => readExchangeBottles(text, { file: "99ZZ20310503_hy1.csv" });

describe("a WHP-Exchange CTD file", () => {
  it("a salinity that is flagged questionable, bad or missing is not used: 3, 4, 5 and 9 [CCHDO2022]", () => {
    for (const [flag, used] of [
      [1, true],
      [2, true],
      [3, false],
      [4, false],
      [5, false],
      [6, true],
      [7, true],
      [9, false],
    ] as const) {
      const { columns } = cast(ct1.replace("35.5010,4", `35.5010,${flag}`)).cast;
      expect(Number.isFinite(columns.primary.conductivity_mS_cm[1])).toBe(used);
    }
  });

  it("an Exchange CTD file gives its cast, time and place", () => {
    expect(cast(ct1).cast).toMatchObject({
      id: "12/3",
      start: "2031-05-04T09:05:00.000Z",
      latitude: -31.5,
      longitude: 12.25,
      conductivityFrom: "salinity",
    });
  });

  it("conductivity is rebuilt from CTDSAL, except at -999 and flags 3, 4, 5 and 9", () => {
    const { columns } = cast(ct1).cast;
    const { temperature_C, conductivity_mS_cm } = columns.primary;
    expect(spFromC(conductivity_mS_cm[0]!, temperature_C[0]!, 2)).toBeCloseTo(35.5, 10);
    expect([...conductivity_mS_cm].map(Number.isNaN)).toEqual([false, true, true]);
    expect(cast(ct1).input.notes.join()).toMatch(/1 values flagged/);
    expect(columns.others.CTDOXY).toEqual(["220.1", "220.0", "-999.0"]);
  });

  it("NUMBER_HEADERS counts its own line", () => {
    expect(cast(ct1).input.notes.join()).not.toContain("NUMBER_HEADERS");
  });

  it("NUMBER_HEADERS one too small, the usual mistake, gives the same cast with a note", () => {
    const read = cast(ct1.replace("NUMBER_HEADERS = 9", "NUMBER_HEADERS = 8"));
    expect(read.cast).toEqual(cast(ct1).cast);
    expect(read.input.notes.join()).toContain("NUMBER_HEADERS");
  });

  it("an Exchange file ends at END_DATA, for any text after it", () => {
    expect(cast(ct1).input.rows).toBe(3);
  });

  it("a file without END_DATA is read to its end, with a note that it may be cut", () => {
    const read = cast(ct1.split("END_DATA")[0]!);
    expect(read.cast).toEqual(cast(ct1).cast);
    expect(read.input.notes.join()).toContain("END_DATA");
  });

  it.each([
    ["CR LF", (text: string) => text.replaceAll("\n", "\r\n")],
    ["a byte-order mark", (text: string) => `\ufeff${text}`],
    ["no stamp", (text: string) => text.replace(/^CTD,.*/, "CTD")],
    ["comments among the headers", (text: string) => text.replace("CASTNO", "# A = B\nCASTNO")],
    ["no blanks", (text: string) => text.replaceAll(" ", "")],
  ])("with %s reads the same", (_, change) => {
    expect(sniff(change(ct1))).toBe("exchange-cast");
    expect(cast(change(ct1)).cast).toEqual(cast(ct1).cast);
  });

  it("temperatures before ITS-90 are converted from the scale of the unit line [Saunders1990]", () => {
    const { cast: old, input } = cast(ct1.replace("ITS-90", "IPTS-68"));
    expect(old.columns.primary.temperature_C[0]).toBeCloseTo(18.1 / 1.00024, 10);
    expect(input.notes.join()).toContain("IPTS-68");
  });

  it("a cast name given by the caller replaces that of the file", () => {
    expect(readExchangeCast(ct1, { file: "a", id: "007" }).cast.id).toBe("007");
  });

  it.each([
    ["no station", ct1.replace("STNNBR = 12\n", ""), "STNNBR"],
    ["no salinity", ct1.replaceAll("CTDSAL", "CTDSIG"), "CTDSAL"],
    ["a name twice", ct1.replace("CTDOXY", "CTDTMP"), "CTDTMP"],
  ])("with %s is refused by name", (_, text, column) => {
    expect(faultsOf(() => cast(text)).map((fault) => fault.column)).toContain(column);
  });

  it.each(["CTD", "CTD,x\n", "CTD,x\nSTNNBR = 1\n", ct1.split("\n").slice(0, 13).join("\n"), hy1])(
    "cut off before its data, or of the other kind, is refused",
    (text) => {
      expect(faultsOf(() => cast(text)).length).toBeGreaterThan(0);
    },
  );
});

describe("a WHP-Exchange bottle file", () => {
  it("a cast starts at the earliest TIME of its bottle rows, in any order", () => {
    const rows = hy1.split("\n");
    const timed = (times: readonly string[]) =>
      rows.map((row, i) => row.replace("0905", times[i - 4] ?? "0905")).join("\n");
    for (const times of [
      ["0800", "0905", "1000", "1100"],
      ["1100", "1000", "0905", "0800"],
      ["0905", "0800", "1100", "1000"],
    ]) {
      const [first] = bottles(timed(times)).casts;
      expect(first).toMatchObject({ id: "12/3", start: "2031-05-04T08:00:00.000Z" });
    }
  });

  it("an Exchange bottle file is a whole cruise: casts by station and cast, numbers or text", () => {
    expect(bottles(hy1).casts).toEqual([
      { id: "12/3", start: "2031-05-04T09:05:00.000Z", latitude: -31.5, longitude: 12.25 },
      { id: "T1A/1", start: "2031-05-05T12:00:00.000Z", latitude: -32, longitude: 12.25 },
    ]);
  });

  it("an Exchange bottle file gives the WOCE flags of sample and bottle", () => {
    const read = bottles(hy1).bottles;
    expect(read.map(({ flag, bottleFlag }) => [flag, bottleFlag])).toEqual([
      [2, 2],
      [4, 4],
      [2, 2],
      [9, 2],
      [6, 2],
    ]);
    expect(read[3]!.salinity).toBeNaN();
  });

  it("a bottle with a CTD value flagged bad stays without that value, and is listed", () => {
    const { bottles: read, input } = bottles(hy1);
    expect(read[2]!.ctd).toBeUndefined();
    expect(read[2]!.salinity).toBe(34.801);
    expect(input.leftOut).toEqual([
      { line: 7, why: expect.stringContaining("CTDSAL_FLAG_W is 4") },
    ]);
  });

  it("closure conductivity is rebuilt from CTDSAL, with a note", () => {
    const { temperature_C, conductivity_mS_cm } = bottles(hy1).bottles[0]!.ctd!.primary!;
    expect(spFromC(conductivity_mS_cm, temperature_C, 3000.5)).toBeCloseTo(34.899, 10);
    expect(bottles(hy1).input.notes.join()).toContain("rebuilt");
  });

  it("bottle rows without TIME start at midnight, with a note", () => {
    const { casts, input } = bottles(hy1.replaceAll("0905", "-999"));
    expect(casts[0]!.start).toBe("2031-05-04T00:00:00.000Z");
    expect(input.notes.join()).toMatch(/TIME is missing in 4 rows/);
  });

  it("a bottle row that lacks a cell is excluded", () => {
    const { input, bottles: read } = bottles(hy1.replace("2000.5, ", ""));
    expect(read).toHaveLength(4);
    expect(input.leftOut.map(({ line }) => line)).toContain(6);
  });

  it("an Exchange bottle file without laboratory salinity is refused", () => {
    const text = hy1.replaceAll(/SALNTY/g, "OXYGEN");
    expect(faultsOf(() => bottles(text)).map(({ column }) => column)).toEqual(["SALNTY"]);
  });

  it("an Exchange file is distinguished from a table with a similar first heading", () => {
    expect(sniff(hy1)).toBe("exchange-bottles");
    expect(sniff("BOTTLE,cast,pressure_dbar,salinity\n1,2,3,4\n")).not.toBe("exchange-bottles");
    expect(sniff("CTDPRS,CTDTMP\n1,2\n")).not.toBe("exchange-cast");
  });
});

const data = new URL("../../../shared/data/arctic-2015/", import.meta.url);
const files = existsSync(data) ? readdirSync(data).filter((name) => name.endsWith("_ct1.csv")) : [];
const text = (name: string) => readFileSync(new URL(name, data), "utf8");

describe("open data: cruise 33HQ20150809", () => {
  it.skipIf(files.length === 0)(
    "all CTD files of 33HQ20150809 are read, and their casts are in the bottle file",
    () => {
      expect(files).toHaveLength(25);
      const { casts, bottles: read } = bottles(text("33HQ20150809_hy1.csv"));
      const known = new Map(casts.map((c) => [c.id, c]));
      for (const name of files) {
        const { cast: one, input } = readExchangeCast(text(name), { file: name });
        expect(input.leftOut).toEqual([]);
        // The two files were written apart: a cast's time may differ by some minutes.
        const apart_ms = Date.parse(known.get(one.id)!.start!) - Date.parse(one.start!);
        expect(Math.abs(apart_ms)).toBeLessThan(3_600_000);
        expect(input.rows).toBe(
          text(name).split("END_DATA")[0]!.trim().split("UMOL/KG")[1]!.trim().split("\n").length -
            1,
        );
      }
      expect(read.length).toBeGreaterThan(3000);
    },
  );

  // The originators adjusted CTDSAL to the bottles, to about 0.002 by station.
  it.skipIf(files.length === 0)(
    "good deep bottles agree with the rebuilt conductivity as the originators state",
    () => {
      const differences = bottles(text("33HQ20150809_hy1.csv")).bottles.flatMap(
        ({ ctd, salinity, flag, bottleFlag, pressure_dbar: p }) => {
          const reading = ctd?.primary;
          if (reading === undefined || flag !== 2 || bottleFlag !== 2 || p < 1000) return [];
          return [spFromC(reading.conductivity_mS_cm, reading.temperature_C, p) - salinity];
        },
      );
      const sorted = differences.sort((a, b) => a - b);
      expect(sorted.length).toBeGreaterThan(300);
      expect(Math.abs(sorted[Math.floor(sorted.length / 2)]!)).toBeLessThan(0.002);
    },
  );
});
