// NetCDF files of profiles. What is expected is in the CF Conventions [CFConventions2023] and in the specification of the
// classic format [NetCDFClassic2011], both from memory; NetCDF-4 files are written by the HDF5 library itself.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { NetCDFReader } from "netcdfjs";
import { beforeAll, describe, expect, it, vi } from "vitest";
import { readCastFile, readCruise } from "../../src/node/index.js";
import type { BadInput } from "../../src/read/badInput.js";
import { classicFile } from "../../src/read/netcdf/classicFile.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { writeNetcdf4 } from "./netcdf4.js";
import {
  contiguous,
  incomplete,
  indexed,
  invented,
  orthogonal,
  single,
  singleWith,
} from "./profiles.js";
import { type ClassicContent, type ClassicVariable, writeClassic } from "./writeClassic.js";

const folder = temporaryFolder("netcdf");
const forms = ["classic", "64-bit offset", "NetCDF-4"] as const;
let count = 0;

async function written(
  content: ClassicContent,
  form: (typeof forms)[number] = "classic",
  name = `a${++count}.nc`,
): Promise<string> {
  const path = join(folder, name);
  if (form === "NetCDF-4") await writeNetcdf4(path, content);
  else writeFileSync(path, writeClassic(content, form === "classic" ? 1 : 2));
  return path;
}

const read = async (content: ClassicContent, more: object = {}) =>
  readCastFile(await written(content), { id: "1", file: "a.nc", ...more });

async function faultsOf(content: ClassicContent | Uint8Array, more: object = {}) {
  const path =
    content instanceof Uint8Array ? join(folder, `a${++count}.nc`) : await written(content);
  if (content instanceof Uint8Array) writeFileSync(path, content);
  const error = await readCastFile(path, { id: "1", file: "a.nc", ...more }).then(
    () => undefined,
    (why: BadInput) => why,
  );
  expect(error?.name).toBe("BadInput");
  return error!.faults;
}

const named = (name: string, change: Partial<ClassicVariable>) => (variable: ClassicVariable) =>
  variable.name === name
    ? { ...variable, ...change, attributes: { ...variable.attributes, ...change.attributes } }
    : variable;

describe.each(forms)("a file of profiles in the form %s", (form) => {
  it.each([
    ["a contiguous ragged array", contiguous],
    ["an indexed ragged array, records", indexed],
    ["an incomplete multidimensional array", incomplete],
    ["an orthogonal multidimensional array", orthogonal],
  ])("as %s is a cruise of its profiles", async (_, content) => {
    const { casts, inputs } = await readCruise(await written(content, form));
    expect(casts.map(({ id }) => id)).toEqual(["T-001", "T-002", "T-003"]);
    for (const [i, { start, latitude, longitude, data }] of casts.entries()) {
      const { pressure, temperature, conductivity, ...profile } = invented[i]!;
      const { columns, conductivityFrom } = data!;
      expect(start).toBe(`2031-05-04T${String(6 * (i + 1)).padStart(2, "0")}:00:00.000Z`);
      expect({ latitude, longitude }).toEqual({
        latitude: profile.latitude,
        longitude: profile.longitude,
      });
      expect(conductivityFrom).toBe("measured");
      expect([...columns.primary.temperature_C]).toEqual(temperature);
      expect([...columns.primary.conductivity_mS_cm]).toEqual(conductivity.map((c) => 10 * c));
      expect([...columns.pressure_dbar]).toEqual(pressure);
      expect(inputs[i]).toMatchObject({ part: profile.id, rows: pressure.length });
    }
  });

  it("a file with one profile is one cast with the name of the profile", async () => {
    const { casts, inputs } = await readCruise(await written(single, form));
    expect(casts.map(({ id, start }) => [id, start])).toEqual([
      ["T-001", "2031-05-04T06:00:00.000Z"],
    ]);
    expect([...casts[0]!.data!.columns.pressure_dbar]).toEqual(invented[0]!.pressure);
    expect(inputs[0]!.sha256).toMatch(/^[0-9a-f]{64}$/);
  });
});

describe("numbers of a classic file", () => {
  it.each([
    ["one after the other", contiguous],
    ["in records", indexed],
  ])("%s are those that netcdfjs itself reads", (_, content) => {
    for (const version of [1, 2] as const) {
      const bytes = writeClassic(content, version);
      const other = new NetCDFReader(bytes);
      for (const { name, read: own } of classicFile(bytes, "a.nc").variables) {
        if (name === "profile") continue;
        expect([...own()]).toEqual(other.getDataVariable(name));
      }
    }
  });
});

describe("packed values", () => {
  it("packed values are unpacked by scale_factor and add_offset, and missing by _FillValue, missing_value and valid_range", async () => {
    const short = (values: readonly number[]) => ({ type: "short", values }) as const;
    const double = (values: readonly number[]) => ({ type: "double", values }) as const;
    const content = singleWith(
      named("temperature", {
        type: "short",
        data: [1000, -32768, 2000, -1, 30000],
        attributes: {
          scale_factor: double([0.001]),
          add_offset: double([10]),
          _FillValue: short([-32768]),
          missing_value: short([-1]),
          valid_range: short([0, 20000]),
        },
      }),
    );
    const { cast } = await read(content);
    expect([...cast.columns.primary.temperature_C]).toEqual([
      11,
      Number.NaN,
      12,
      Number.NaN,
      Number.NaN,
    ]);
  });

  it("a valid range in the unpacked type applies to unpacked values", async () => {
    const content = singleWith(
      named("temperature", {
        type: "short",
        data: [1, 2, 3, 4, 5],
        attributes: {
          scale_factor: { type: "double", values: [4] },
          valid_range: { type: "double", values: [5, 17] },
          _FillValue: { type: "short", values: [-1] },
        },
      }),
    );
    const { cast } = await read(content);
    expect([...cast.columns.primary.temperature_C]).toEqual([Number.NaN, 8, 12, 16, Number.NaN]);
  });

  it("values that were never written are missing, by the fill value of their type", async () => {
    const { _FillValue: _, ...attributes } = single.variables.at(-2)!.attributes!;
    const content: ClassicContent = {
      ...single,
      variables: single.variables.map((v) =>
        v.name === "temperature"
          ? { ...v, type: "float", data: [12, 11, 9.969209968386869e36, 10, 9], attributes }
          : v,
      ),
    };
    const { cast } = await read(content);
    expect(cast.columns.primary.temperature_C[2]).toBeNaN();
    expect(cast.columns.primary.temperature_C[3]).toBe(10);
  });

  it("values of a single record variable follow each other without padding", async () => {
    const rows = [12, 11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0, -1, -2];
    const content: ClassicContent = {
      ...orthogonal,
      record: "profile",
      variables: orthogonal.variables.flatMap((v) => {
        if (v.name === "temperature") {
          const { _FillValue: _, ...attributes } = v.attributes!;
          return { ...v, type: "short" as const, data: rows, attributes };
        }
        if (v.name === "conductivity") return { ...v, dimensions: ["z"], data: [4, 4, 4, 4, 4] };
        return v.name === "pressure" ? v : [];
      }),
    };
    for (const [k, id] of ["1", "2", "3"].entries()) {
      const { cast } = await read(content, { id });
      const expected = rows.slice(5 * k, 5 * k + 5);
      expect([...cast.columns.primary.temperature_C]).toEqual(expected);
    }
  });
});

describe("units", () => {
  it.each([
    ["dbar", 100],
    ["decibar", 100],
    ["decibars", 100],
    ["Pa", 1e6],
    ["pascal", 1e6],
    ["kPa", 1000],
    ["MPa", 1],
    ["hPa", 10_000],
    ["bar", 10],
    ["mbar", 10_000],
  ])("a pressure of 100 dbar in %s is 100 dbar", async (units, value) => {
    const { cast } = await read(
      singleWith(
        named("pressure", {
          data: [0, 0.5, 1, 1.5, 2].map((k) => k * value),
          attributes: { units },
        }),
      ),
    );
    expect(cast.columns.pressure_dbar[2]).toBeCloseTo(100, 9);
  });

  it.each([
    ["degC", 10],
    ["degree_C", 10],
    ["degrees_C", 10],
    ["Celsius", 10],
    ["degree_Celsius", 10],
    ["\u00b0C", 10],
    ["K", 283.15],
    ["kelvin", 283.15],
    ["degK", 283.15],
  ])("10 degree C in %s are 10", async (units, value) => {
    const { cast } = await read(
      singleWith(named("temperature", { data: Array(5).fill(value), attributes: { units } })),
    );
    expect(cast.columns.primary.temperature_C[2]).toBeCloseTo(10, 9);
  });

  // Standard sea water at 15 degree C: 42.914 mS/cm [UNESCO1983], from memory.
  it.each([
    ["S m-1", 4.2914],
    ["S/m", 4.2914],
    ["S.m-1", 4.2914],
    ["S m^-1", 4.2914],
    ["siemens meter-1", 4.2914],
    ["siemens per metre", 4.2914],
    ["mS cm-1", 42.914],
    ["mS/cm", 42.914],
    ["mmho cm-1", 42.914],
    ["uS cm-1", 42_914],
    ["mS m-1", 4291.4],
  ])("42.914 mS/cm in %s are 42.914", async (units, value) => {
    const { cast } = await read(
      singleWith(named("conductivity", { data: Array(5).fill(value), attributes: { units } })),
    );
    expect(cast.columns.primary.conductivity_mS_cm[2]).toBeCloseTo(42.914, 9);
  });

  it.each([
    ["pressure", "m"],
    ["pressure", "psi"],
    ["temperature", "C"],
    ["temperature", "degF"],
    ["conductivity", "S m"],
    ["conductivity", "S/m-1"],
    ["conductivity", "1"],
    ["temperature", ""],
  ])("of %s as %j are refused, naming the variable", async (name, units) => {
    const [fault] = await faultsOf(singleWith(named(name, { attributes: { units } })));
    expect(fault).toMatchObject({ file: "a.nc", line: 0, column: name });
    expect(fault!.found).toContain("units");
  });
});

describe("times", () => {
  const startOf = async (value: number, units: string, calendar?: string) => {
    const attributes = { units, ...(calendar === undefined ? {} : { calendar }) };
    return (await read(singleWith(named("time", { data: [value], attributes })))).cast.start;
  };
  it.each([
    [8760, "hours since 1990-01-01 00:00:00", "1991-01-01T00:00:00.000Z"],
    [366, "days since 2000-01-01", "2001-01-01T00:00:00.000Z"],
    // The example of the conventions, section 4.4: the zone is that of the moment.
    [0, "seconds since 1992-10-8 15:15:42.5 -6:00", "1992-10-08T21:15:42.500Z"],
    [90, "minutes since 2031-05-04T12:00Z", "2031-05-04T13:30:00.000Z"],
    [29711.5, "days since 1950-01-01T00:00:00Z", "2031-05-07T12:00:00.000Z"],
  ])("%d %s is %s", async (value, units, expected) => {
    expect(await startOf(value, units)).toBe(expected);
  });
  it.each([
    ["days since 2031-05-04", "360_day"],
    ["days since 2031-05-04", "noleap"],
    ["days since 1-1-1", "standard"],
    ["months since 2031-01-01", undefined],
    ["fortnights since 2031-01-01", undefined],
    ["days since yesterday", undefined],
    ["days", undefined],
  ])("%s in the calendar %s are refused", async (units, calendar) => {
    const attributes = { units, ...(calendar === undefined ? {} : { calendar }) };
    const [fault] = await faultsOf(singleWith(named("time", { attributes })));
    expect(fault).toMatchObject({ column: "time" });
  });
  it("times outside the possible time of a cast are refused", async () => {
    for (const value of [1e9, -1e9, 1e300]) {
      const [fault] = await faultsOf(singleWith(named("time", { data: [value] })));
      expect(fault).toMatchObject({ column: "time", expected: "the time of a cast" });
    }
  });
  it("times of scans give the seconds of the cast", async () => {
    const content = singleWith(
      named("time", {
        dimensions: ["z"],
        data: [10, 11, 12.5, 14, 15],
        attributes: { units: "seconds since 2031-05-04" },
      }),
    );
    const { cast } = await read(content);
    expect(cast.start).toBe("2031-05-04T00:00:10.000Z");
    expect([...cast.columns.time_s!]).toEqual([0, 1, 2.5, 4, 5]);
  });
});

const flag = (
  attributes: ClassicVariable["attributes"],
  data = [1, 2, 3, 4, 9],
): ClassicVariable => ({
  name: "temperature_qc",
  dimensions: ["z"],
  type: "byte",
  data,
  attributes: attributes ?? {},
});
const flagged = (attributes: ClassicVariable["attributes"], data?: number[]) =>
  singleWith((v) =>
    v.name === "temperature"
      ? [
          named("temperature", { attributes: { ancillary_variables: "temperature_qc" } })(v),
          flag(attributes, data),
        ]
      : v,
  );
const gaps = async (content: ClassicContent) => {
  const { cast, input } = await read(content);
  return {
    gaps: [...cast.columns.primary.temperature_C].map(Number.isNaN),
    notes: input.notes.join("\n"),
  };
};

describe("quality flags", () => {
  const values = { type: "byte", values: [1, 2, 3, 4, 9] } as const;
  const meanings =
    "good_data probably_good_data bad_data_that_are_potentially_correctable bad_data missing_value";
  it("a flag with the meaning bad or missing removes the value, and the count is noted", async () => {
    const found = await gaps(
      flagged({ standard_name: "status_flag", flag_values: values, flag_meanings: meanings }),
    );
    expect(found.gaps).toEqual([false, false, true, true, true]);
    expect(found.notes).toContain("3 values flagged");
  });
  it("flags of GO-SHIP and OceanSITES are known by their conventions", async () => {
    const whp = await gaps(
      flagged(
        { standard_name: "status_flag", conventions: "GO-SHIP CTD flags, WOCE" },
        [2, 3, 4, 6, 9],
      ),
    );
    expect(whp.gaps).toEqual([false, true, true, false, true]);
    const sites = await gaps(
      flagged(
        { standard_name: "status_flag", conventions: "OceanSITES QC Flags" },
        [1, 3, 4, 8, 9],
      ),
    );
    expect(sites.gaps).toEqual([false, true, true, false, true]);
  });
  it("flags in bits are read as masks", async () => {
    const masks = { type: "byte", values: [1, 2, 4] } as const;
    const found = await gaps(
      flagged({ flag_masks: masks, flag_meanings: "despiked bad interpolated" }, [0, 1, 2, 3, 4]),
    );
    expect(found.gaps).toEqual([false, false, true, true, false]);
  });
  it("flags without a stated meaning are ignored, with a note", async () => {
    const found = await gaps(flagged({ standard_name: "status_flag" }));
    expect(found.gaps).toEqual([false, false, false, false, false]);
    expect(found.notes).toContain("temperature_qc does not say");
  });
});

const twice = (a: string, b: string, names: readonly string[] = ["temperature", "conductivity"]) =>
  singleWith((v) =>
    names.includes(v.name)
      ? [
          { ...v, name: `${v.name}${a}` },
          { ...v, name: `${v.name}${b}`, data: (v.data as number[]).map((x) => x + 0.5) },
        ]
      : v,
  );

describe("a second sensor", () => {
  it.each([
    ["1", "2"],
    ["2", "1"],
    ["", "2"],
    ["", "_secondary"],
    ["_primary", "_secondary"],
    ["_2", ""],
  ])("told by the endings %j and %j is the second cell, and that is said", async (a, b) => {
    const { cast, input } = await read(twice(a, b));
    const first = /2|secondary/.test(a) ? 0.5 : 0;
    const T = invented[0]!.temperature[0]!;
    expect(cast.columns.primary.temperature_C[0]).toBe(T + first);
    expect(cast.columns.secondary!.temperature_C[0]).toBe(T + 0.5 - first);
    expect(input.notes.join()).toContain("by their names");
  });
  it.each([
    ["_a", "_b"],
    ["1", "3"],
    ["_1", ""],
  ])("named %j and %j is not guessed at", async (a, b) => {
    const faults = await faultsOf(twice(a, b));
    expect(faults.map(({ column }) => column)).toEqual([
      `temperature${a}, temperature${b}`,
      `conductivity${a}, conductivity${b}`,
    ]);
    expect(faults[0]!.mend).toContain("--column temperature_C=");
  });
  it("a second thermometer alone is no second cell", async () => {
    const { cast, input } = await read(twice("1", "2", ["temperature"]));
    expect(cast.columns.secondary).toBeUndefined();
    expect(input.notes.join()).toContain("no second cell");
  });
  it("a second sensor named by the caller is used, for any name", async () => {
    const mapping = { temperature_C: "temperature_b", conductivity_S_m: "conductivity_b" };
    const { cast } = await read(twice("_a", "_b"), { mapping });
    expect(cast.columns.primary.temperature_C[0]).toBe(invented[0]!.temperature[0]! + 0.5);
    expect(cast.columns.primary.conductivity_mS_cm[0]).toBe(
      10 * (invented[0]!.conductivity[0]! + 0.5),
    );
    const [fault] = await faultsOf(single, { mapping: { temperature_C: "nothing" } });
    expect(fault).toMatchObject({ column: "nothing" });
  });
});

describe("faulty variables are refused by name", () => {
  it.each(["pressure", "temperature", "conductivity"])("without %s", async (name) => {
    const [fault] = await faultsOf(singleWith((v) => (v.name === name ? [] : v)));
    expect(fault!.expected).toMatch(/standard_name sea_water_/);
  });
  it("salinity replaces missing conductivity, with a note in the verdict", async () => {
    const attributes = { standard_name: "sea_water_practical_salinity", units: "1" };
    const { cast } = await read(
      singleWith(named("conductivity", { data: Array(5).fill(35), attributes })),
    );
    expect(cast.conductivityFrom).toBe("salinity");
  });
  it("another kind of feature", async () => {
    const [fault] = await faultsOf({ ...single, attributes: { featureType: "trajectory" } });
    expect(fault).toMatchObject({ column: "featureType", expected: "profile" });
  });
  it("rows that do not add up, profiles that are not there, scans of nobody", async () => {
    const [rows] = await faultsOf({
      ...contiguous,
      variables: contiguous.variables.map(named("rowSize", { data: [5, 3, 40] })),
    });
    expect(rows).toMatchObject({ column: "rowSize", found: "48 scans in all" });
    const [index] = await faultsOf({
      ...indexed,
      variables: indexed.variables.map(named("profileIndex", { data: Array(12).fill(7) })),
    });
    expect(index).toMatchObject({ column: "profileIndex", found: "profile 7 at scan 0" });
    const [none] = await faultsOf({
      ...contiguous,
      variables: contiguous.variables.filter(({ name }) => name !== "rowSize"),
    });
    expect(none!.found).toContain("3 positions");
  });
  it("a profile that the file does not have, and names that no cast can have", async () => {
    const path = await written(contiguous);
    await expect(readCastFile(path, { id: "9", file: "a.nc" })).rejects.toThrow(
      /no profile 9 among T-001/,
    );
    const twins = contiguous.variables.map((v) =>
      v.type === "char" ? { ...v, data: "T-1\0\0\0\0\0".repeat(3) } : v,
    );
    const [fault] = await faultsOf({ ...contiguous, variables: twins });
    expect(fault!.found).toContain("a second time");
  });
  it("the newer 64-bit form, a file cut short, a header that claims more than there is", async () => {
    const bytes = writeClassic(single);
    const newer = Uint8Array.from(bytes);
    newer[3] = 5;
    expect((await faultsOf(newer))[0]!.found).toContain("CDF-5");
    expect((await faultsOf(bytes.slice(0, -8)))[0]!).toMatchObject({ column: "conductivity" });
    expect((await faultsOf(bytes.slice(0, 60)))[0]!.found).toContain("header");
  });
});

describe("a broken file", () => {
  it.each([["classic"], ["64-bit offset"], ["NetCDF-4"]] as const)(
    "in the form %s, bytes changed or cut off, is read or refused with reasons",
    async (form) => {
      const path = await written(contiguous, form);
      const sound = readFileSync(path);
      const change = fc.tuple(fc.nat(Math.min(sound.length - 1, 2500)), fc.nat(255));
      await fc.assert(
        fc.asyncProperty(
          fc.array(change, { maxLength: 6 }),
          fc.option(fc.nat(sound.length), { freq: 4 }),
          async (changes, cut) => {
            const bytes = Uint8Array.from(sound);
            for (const [at, byte] of changes) bytes[at] = byte;
            // Its kind is known by its first bytes, so these stay.
            bytes.set(sound.subarray(0, 4));
            const broken = join(folder, "broken.nc");
            writeFileSync(broken, bytes.subarray(0, Math.max(8, cut ?? bytes.length)));
            const facts = { id: "T-002", file: "broken.nc" };
            const error: unknown = await readCastFile(broken, facts).catch((why: unknown) => why);
            if (error instanceof Error)
              expect(`${error.name}: ${error.message}`).toMatch(/^BadInput/);
          },
        ),
        { seed: 20310509, numRuns: form === "NetCDF-4" ? 50 : 150 },
      );
    },
  );

  it("a NetCDF-4 file without h5wasm is refused with how to install it", async () => {
    const path = await written(single, "NetCDF-4");
    // h5wasm is imported anew for each file. Other test files share the modules, so none is reset here.
    vi.doMock("h5wasm/node", () => {
      throw new Error("Cannot find package 'h5wasm'");
    });
    try {
      await expect(readCastFile(path, { id: "1", file: "a.nc" })).rejects.toThrow(
        /npm install h5wasm/,
      );
    } finally {
      vi.doUnmock("h5wasm/node");
    }
  });
});

describe("a folder and a description", () => {
  beforeAll(async () => {
    mkdirSync(join(folder, "cruise"));
    await written(contiguous, "NetCDF-4", "cruise/leg.nc");
    await written(single, "classic", "cruise/other.nc");
  });
  it("NetCDF files of a folder are casts, named by file if profiles share a name", async () => {
    const { casts } = await readCruise(join(folder, "cruise"));
    // In the order of their times.
    expect(casts.map(({ id }) => id)).toEqual([
      "leg/T-001",
      "other/T-001",
      "leg/T-002",
      "leg/T-003",
    ]);
    expect(casts[2]!.data!.columns.pressure_dbar).toHaveLength(3);
  });
  it("cruise.json names a profile by its id", async () => {
    const described = join(folder, "cruise", "cruise.json");
    const cast = { id: "T-002", file: "leg.nc", latitude: 1 };
    writeFileSync(described, JSON.stringify({ name: "x", casts: [cast] }));
    const { casts } = await readCruise(described);
    expect(casts[0]).toMatchObject({ id: "T-002", latitude: 1, longitude: 13.25 });
    expect(casts[0]!.data!.columns.pressure_dbar).toHaveLength(3);
    const twice = [cast, { id: "2", file: "leg.nc" }];
    writeFileSync(described, JSON.stringify({ name: "x", casts: twice }));
    await expect(readCruise(described)).rejects.toThrow(/the same profile/);
  });
});
