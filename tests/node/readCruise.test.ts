import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterEach, describe, expect, it } from "vitest";
import { hashFile, readCastFile, readCruise } from "../../src/node/index.js";
import { BadInput, type Fault } from "../../src/read/badInput.js";
import { readCastCsv } from "../../src/read/castCsv.js";

// An invented cruise.
const cast = `time_s,pressure_dbar,temperature_C,conductivity_mS_cm
0,10,12.1,39.8
1,20,12.0,39.7
2,10,12.1,39.8
`;
const bottles = "cast,bottle,pressure_dbar,salinity,start\n001,1,20,35.01,2031-05-04T12:30Z\n";
const maintenance = "time,action,minutes\n2031-05-04T14:00Z,rinse,5\n";
const description = JSON.stringify({
  name: "invented",
  casts: [{ id: "001", file: "casts/a.csv", start: "2031-05-04T12:30Z" }],
  bottles: "bottles.csv",
  maintenance: "maintenance.csv",
  instrument: { sampleRate_Hz: 24 },
});
const ct1 = `CTD,x
NUMBER_HEADERS = 5
STNNBR = 1
CASTNO = 2
DATE = 20310504
TIME = 1230
CTDPRS,CTDTMP,CTDSAL
DBAR,ITS-90,PSS-78
10,12.1,35.0
20,12.0,35.0
END_DATA
`;
const hy1 = `BOTTLE,x
STNNBR,CASTNO,DATE,TIME,CTDPRS,CTDTMP,CTDSAL,SALNTY
,,,,DBAR,ITS-90,PSS-78,PSS-78
1,2,20310504,1230,20,12.0,35.000,35.001
1,3,20310504,1730,20,12.0,35.000,35.001
END_DATA
`;

const made: string[] = [];
afterEach(async () => {
  for (const folder of made.splice(0)) await rm(folder, { recursive: true });
});
/** A folder of these files, for the time of a test. */
async function folder(files: Readonly<Record<string, string | Uint8Array>>): Promise<string> {
  const root = await mkdtemp(join(tmpdir(), "foulcast-test-"));
  made.push(root);
  for (const [name, content] of Object.entries(files)) {
    await mkdir(dirname(join(root, name)), { recursive: true });
    await writeFile(join(root, name), content);
  }
  return root;
}
async function faultsOf(reading: Promise<unknown>): Promise<readonly Fault[]> {
  const error = await reading.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (error instanceof BadInput) return error.faults;
  throw error ?? new Error("read without a fault");
}

describe("a cruise folder", () => {
  const files = {
    "cruise.json": description,
    "casts/a.csv": cast,
    "bottles.csv": bottles,
    "maintenance.csv": maintenance,
  };

  it("a cruise folder is read according to cruise.json, by the name of the folder or of the file", async () => {
    const root = await folder(files);
    const cruise = await readCruise(root);
    expect(await readCruise(join(root, "cruise.json"))).toEqual(cruise);
    expect(cruise.name).toBe("invented");
    expect(cruise.casts).toHaveLength(1);
    expect(cruise.casts[0]!.data!.sampleRate_Hz).toBe(24);
    expect(cruise.bottles).toHaveLength(1);
    expect(cruise.maintenance[0]!.action).toBe("rinse");
    expect(cruise.inputs.map(({ name, role }) => [name, role])).toEqual([
      ["cruise.json", "cruise"],
      ["casts/a.csv", "cast"],
      ["bottles.csv", "bottles"],
      ["maintenance.csv", "maintenance"],
    ]);
  });

  it("the inputs of a cruise list the SHA-256 of the bytes of each file", async () => {
    const { inputs } = await readCruise(await folder(files));
    const sha256 = (text: string) => createHash("sha256").update(text).digest("hex");
    expect(inputs.map((input) => input.sha256)).toEqual(
      [description, cast, bottles, maintenance].map(sha256),
    );
  });

  it("reading a cruise reports progress, up to the last file", async () => {
    const told: [number, number, string][] = [];
    await readCruise(await folder(files), (...step) => told.push(step));
    expect(told).toEqual([
      [1, 3, "001"],
      [2, 3, "bottles.csv"],
      [3, 3, "maintenance.csv"],
    ]);
  });

  it("a missing file that cruise.json names is refused by name", async () => {
    const { "casts/a.csv": _, ...rest } = files;
    const [fault] = await faultsOf(readCruise(await folder(rest)));
    expect(fault).toMatchObject({ file: "casts/a.csv", found: "no such file" });
  });

  it("cruise.json cannot name files outside its folder", async () => {
    const root = await folder({
      "in/cruise.json": description.replace("casts/a.csv", "../a.csv"),
      "a.csv": cast,
    });
    const [fault] = await faultsOf(readCruise(join(root, "in")));
    expect(fault).toMatchObject({ file: "cruise.json", column: "casts.0.file" });
  });
});

describe("a folder without cruise.json", () => {
  it("a folder without cruise.json is read by the content of its files, with notes of the assumptions", async () => {
    const cruise = await readCruise(
      await folder({
        "10.csv": cast,
        "9.csv": `${cast}3,5,12.1,39.8\n`,
        "salts.csv": `${bottles}9,1,20,35.01,\n`,
        "log.csv": maintenance,
        "readme.txt": "x",
      }),
    );
    expect(cruise.casts.map(({ id }) => id)).toEqual(["9", "10", "001"]);
    expect(cruise.maintenance).toHaveLength(1);
    const said = cruise.inputs[0]!.notes.join();
    for (const part of ["no cruise.json", "salts.csv", "log.csv", "readme.txt"])
      expect(said).toContain(part);
  });

  it("CTD files and a bottle file in one folder are matched by station", async () => {
    const cruise = await readCruise(await folder({ "x_hy1.csv": hy1, "a.csv": ct1 }));
    expect(cruise.casts.map(({ id, data }) => [id, data !== undefined])).toEqual([
      ["1/2", true],
      ["1/3", false],
    ]);
  });

  it.each([
    ["cast-001.csv", "cast-002.csv", ["001", "002"], ["001", "002"]],
    ["cast-001.csv", "cast-002.csv", ["1", "2"], ["001", "002"]],
    ["leg2 deep 07.csv", "leg2 deep 12.csv", ["7", "12"], ["leg2 deep 07", "leg2 deep 12"]],
    ["07.csv", "12.csv", ["cast 7", "cast 12"], ["07", "12"]],
  ])(
    "with casts %s and %s and bottles of %j has two casts, each with its bottle",
    async (a, b, of, ids) => {
      const cruise = await readCruise(
        await folder({
          [a]: cast,
          [b]: `${cast}3,5,12.1,39.8\n`,
          "salts.csv": `cast,bottle,pressure_dbar,salinity\n${of[0]},1,20,35.01\n${of[1]},1,20,35.02\n`,
        }),
      );
      expect(cruise.casts.map(({ id }) => id)).toEqual(ids);
      expect(cruise.bottles.map((bottle) => bottle.cast)).toEqual(ids);
      const said = cruise.inputs.find(({ role }) => role === "bottles")!.notes.join();
      if (of[0] !== ids[0]) expect(said).toContain(`cast ${of[0]} was taken for cast ${ids[0]}`);
    },
  );

  it("bottles that belong to no cast are refused, with the names to use", async () => {
    const root = await folder({ "deep.csv": cast, "salts.csv": bottles });
    const [fault] = await faultsOf(readCruise(root));
    expect(fault).toMatchObject({ file: "salts.csv", column: "cast" });
    expect(fault!.mend).toMatch(/cruise.json.*--cast/);
  });

  it("bottles are not matched by a number that two casts share or that belongs to another word", async () => {
    const salts = (id: string) => `cast,bottle,pressure_dbar,salinity\n${id},1,20,35.01\n`;
    const two = await folder({
      "a1.csv": cast,
      "b1.csv": `${cast}3,5,12.1,39.8\n`,
      "salts.csv": salts("1"),
    });
    expect(await faultsOf(readCruise(two))).toHaveLength(1);
    const other = await folder({ "north1.csv": cast, "salts.csv": salts("south1") });
    expect(await faultsOf(readCruise(other))).toHaveLength(1);
  });

  it("a folder with one cast under two names is refused", async () => {
    const [fault] = await faultsOf(readCruise(await folder({ "1.csv": cast, "2.csv": cast })));
    expect(fault).toMatchObject({ file: "2.csv", found: "the same bytes as in 1.csv" });
  });

  it("a folder without a known file is refused", async () => {
    expect(await faultsOf(readCruise(await folder({ "a.csv": "x,y\n1,2\n" })))).toHaveLength(1);
    expect(await faultsOf(readCruise(await folder({})))).toHaveLength(1);
  });
});

describe("a single file", () => {
  it.each([
    ["a bottles table", "b.txt", bottles, ["001"]],
    ["a WHP-Exchange bottle file", "b.txt", hy1, ["1/2", "1/3"]],
    ["a WHP-Exchange CTD file", "c.txt", ct1, ["1/2"]],
    ["a cast", "deep.csv", cast, ["deep"]],
  ])("%s is a cruise by itself, known by what it holds", async (_, name, text, ids) => {
    const cruise = await readCruise(join(await folder({ [name]: text }), name));
    expect(cruise.casts.map(({ id }) => id)).toEqual(ids);
    expect(cruise.inputs[0]!.sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it.each([
    ["a piece of NetCDF classic", Uint8Array.of(0x43, 0x44, 0x46, 1, 0, 0), /copied to its end/],
    [
      "a piece of NetCDF-4",
      Uint8Array.of(0x89, 0x48, 0x44, 0x46, 13, 10, 26, 10),
      /copied to its end/,
    ],
    ["a spreadsheet or archive", Uint8Array.of(0x50, 0x4b, 3, 4, 0, 0), /CSV/],
    ["a maintenance record alone", new TextEncoder().encode(maintenance), /cruise/],
    ["empty", new Uint8Array(0), /written to its end/],
    ["text in UTF-16", Uint8Array.of(0xff, 0xfe, 0x61, 0), /UTF-8/],
  ])("that is %s is refused with that reason", async (_, bytes, mend) => {
    const [fault] = await faultsOf(readCruise(join(await folder({ "a.nc": bytes }), "a.nc")));
    expect(fault!.mend).toMatch(mend);
  });

  it("one cast file with bottles, record, target and minutes given as options is a cruise", async () => {
    const root = await folder({
      "cast-001.csv": cast,
      "elsewhere/salts.csv": bottles,
      "elsewhere/log.csv": "after_cast,action\n1,rinse\n",
    });
    const cruise = await readCruise(join(root, "cast-001.csv"), {
      bottles: join(root, "elsewhere/salts.csv"),
      record: join(root, "elsewhere/log.csv"),
      target: 0.003,
      minutesAvailable: 45,
    });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["001"]);
    expect(cruise.bottles.map((bottle) => bottle.cast)).toEqual(["001"]);
    expect(cruise.maintenance[0]!.afterCast).toBe("001");
    expect(cruise).toMatchObject({ target: 0.003, nextStation: { minutesAvailable: 45 } });
  });

  it("bottles that name no cast belong to the only cast, with a note", async () => {
    const root = await folder({
      "deep.csv": cast,
      "salts.csv": "pressure_dbar,salinity\n20,35.01\n",
    });
    const cruise = await readCruise(join(root, "deep.csv"), { bottles: join(root, "salts.csv") });
    expect(cruise.bottles.map((bottle) => bottle.cast)).toEqual(["deep"]);
    expect(cruise.inputs.at(-1)!.notes.join()).toContain("taken as of cast deep");
  });

  it("bottles with another cast name get a note with that name", async () => {
    const root = await folder({ "deep.csv": cast, "salts.csv": bottles });
    const beside = { bottles: join(root, "salts.csv") };
    expect((await faultsOf(readCruise(join(root, "deep.csv"), beside)))[0]!.mend).toMatch(/--cast/);
    const cruise = await readCruise(join(root, "deep.csv"), { ...beside, cast: "001" });
    expect(cruise.casts.map(({ id }) => id)).toEqual(["001"]);
  });

  it("one cast beside the bottles of a whole cruise keeps its own, and a note counts the others", async () => {
    const root = await folder({
      "cast-001.csv": cast,
      "salts.csv": `${bottles}1,2,10,35.02,\n002,1,20,35.03,2031-05-04T18:30Z\n014,1,20,35.04,\n`,
    });
    const beside = { bottles: join(root, "salts.csv") };
    const cruise = await readCruise(join(root, "cast-001.csv"), beside);
    expect(cruise.casts.map(({ id, start }) => [id, start])).toEqual([
      ["001", "2031-05-04T12:30:00.000Z"],
    ]);
    expect(cruise.bottles.map((bottle) => [bottle.cast, bottle.bottle])).toEqual([
      ["001", "1"],
      ["001", "2"],
    ]);
    expect(cruise.inputs.at(-1)!.notes).toContain("bottles of casts without a file, ignored: 2");
    // In a folder they are casts of the cruise that are known by their bottles.
    const whole = await readCruise(root);
    expect(whole.casts.map(({ id }) => id)).toEqual(["001", "002", "014"]);
  });

  it("a file with other headings is read with the headings given", async () => {
    const odd = cast.replace("pressure_dbar", "Pres").replace("temperature_C", "Temp");
    const root = await folder({ "a.csv": odd });
    const [fault] = await faultsOf(readCruise(join(root, "a.csv")));
    expect(fault!.mend).toContain("--column pressure_dbar=Pres");
    const columns = { pressure_dbar: "Pres", temperature_C: "Temp" };
    const cruise = await readCruise(join(root, "a.csv"), { columns });
    expect(cruise.casts[0]!.data!.columns.pressure_dbar[1]).toBe(20);
    expect((await readCruise(root, { columns })).casts).toHaveLength(1);
  });

  it.skipIf(process.platform === "win32")(
    "that is a device or a pipe is refused at once",
    async () => {
      const root = await folder({ "a.csv": cast });
      const pipe = join(root, "pipe.csv");
      execFileSync("mkfifo", [pipe]);
      for (const path of ["/dev/zero", "/dev/null", pipe]) {
        const [fault] = await faultsOf(readCruise(path));
        expect(fault!.found).toBe("a pipe, a device or a socket");
      }
      const [part] = await faultsOf(readCruise(join(root, "a.csv"), { bottles: "/dev/zero" }));
      expect(part!.found).toBe("a pipe, a device or a socket");
    },
  );

  it("a missing file is refused by name", async () => {
    const [fault] = await faultsOf(readCruise(join(tmpdir(), "foulcast-no-such-file")));
    expect(fault!.found).toBe("no such file");
    expect(await faultsOf(readCruise("a\u0000b"))).toHaveLength(1);
  });

  it("a Latin-1 file is read, with a note", async () => {
    const bytes = Uint8Array.from(`${hy1.replace("BOTTLE,x", "BOTTLE,x\n# Tromsø")}`, (c) =>
      c.charCodeAt(0),
    );
    const cruise = await readCruise(join(await folder({ "a.csv": bytes }), "a.csv"));
    expect(cruise.bottles).toHaveLength(2);
    expect(cruise.inputs[0]!.notes.join()).toContain("Latin-1");
  });
});

describe("a cast streamed from a file", () => {
  const rows = Array.from(
    { length: 5000 },
    (_, i) => `${i},${i / 10},${12 - i / 1000},${40 - i / 1000}`,
  );
  const long = ["time_s,pressure_dbar,temperature_C,conductivity_mS_cm", ...rows].join("\n");

  it.each([
    ["as it is", long],
    ["ended", `${long}\n`],
    ["with CR LF", long.replaceAll("\n", "\r\n")],
    [
      "with comments and blank lines",
      `# invented\n\n${long.replace("\n100,", "\n# pause\n100,")}\n\n`,
    ],
    ["with a cell that is no number", long.replace(/\n200,[^,]*/, "\n200,x")],
    [
      "with comments and a cell that is no number",
      `# invented\n${long.replace(/\n200,[^,]*/, "\n200,x")}`,
    ],
    ["with a row cut short", long.replace(/\n300,.*/, "\n300,4")],
    ["with text in quotes over two lines", long.replace(/\n200,[^,]*/, '\n200,"x\ny"')],
  ])("%s is the same as from text", async (_, text) => {
    const path = join(await folder({ "a.csv": text }), "a.csv");
    const streamed = await readCastFile(path, { id: "1", file: "a.csv" });
    const { cast: told, input } = readCastCsv(text, { id: "1", file: "a.csv" });
    expect(streamed.cast).toEqual(told);
    expect(streamed.input).toEqual({ ...input, sha256: await hashFile(path) });
  });

  it.each([
    ["headings that are not known", long.replace("pressure_dbar", "pr")],
    ["a heading twice", long.replace("time_s", "pressure_dbar")],
    ["headings of which some are in quotes", long.replace("time_s", '"pressure_dbar"')],
    ["a quote that is never closed", long.replace("\n300,", '\n300,"')],
    ["a quote within a cell", long.replace("\n300,", '\n300"x,')],
    ["headings only", `${long.split("\n")[0]}\n`],
    ["nothing", ""],
  ])("with %s has the same faults as from text", async (_, text) => {
    const path = join(await folder({ "a.csv": text }), "a.csv");
    let told: readonly Fault[] = [];
    try {
      readCastCsv(text, { id: "1", file: "a.csv" });
    } catch (error) {
      if (error instanceof BadInput) told = error.faults;
    }
    expect(told.length).toBeGreaterThan(0);
    expect(await faultsOf(readCastFile(path, { id: "1", file: "a.csv" }))).toEqual(told);
  });
});

const open = (path: string) =>
  fileURLToPath(new URL(`../../../shared/data/${path}`, import.meta.url));
describe("open data", () => {
  it.skipIf(!existsSync(open("arctic-2015")))(
    "cruise 33HQ20150809: the folder gives the casts of its bottle file, 25 of them with data",
    async () => {
      const cruise = await readCruise(open("arctic-2015"));
      const alone = await readCruise(open("arctic-2015/33HQ20150809_hy1.csv"));
      expect(cruise.casts.filter(({ data }) => data !== undefined)).toHaveLength(25);
      expect(new Set(cruise.casts.map(({ id }) => id))).toEqual(
        new Set(alone.casts.map(({ id }) => id)),
      );
      expect(cruise.bottles).toEqual(alone.bottles);
    },
  );
});
