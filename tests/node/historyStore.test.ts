import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { BadInput } from "../../src/index.js";
import { addToHistory, readHistory } from "../../src/node/index.js";
import { openDatabase } from "../../src/node/sqlite.js";
import { recordFor } from "../history/recordFor.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { skippedWithout, sqliteHere } from "./sqliteHere.js";

const base = temporaryFolder("history");
let count = 0;
const newFolder = () => join(base, `place-${count++}`, "histories");
const newDatabase = () => `${newFolder()}.sqlite`;

async function faultOf(work: Promise<unknown>) {
  const error = await work.then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  expect(error).toBeInstanceOf(BadInput);
  return (error as BadInput).faults[0];
}

describe.each([
  { kind: "a folder", place: newFolder, has: true, told: "" },
  { kind: "an SQLite database", place: newDatabase, has: sqliteHere, told: skippedWithout },
])("histories in $kind$told", ({ place, has }) => {
  it.runIf(has)(
    "a history reads back the records that were written, from a place that is created",
    async () => {
      const at = place();
      const records = [recordFor(), recordFor({ serial: "K/22 ü \u0000'\"" })];
      await addToHistory(at, records);
      expect(await readHistory(at)).toEqual(records);
    },
  );

  it.runIf(has)("a cruise that is assessed again replaces its record in the history", async () => {
    const at = place();
    await addToHistory(at, [recordFor()]);
    await addToHistory(at, [recordFor({ casts: 15 })]);
    expect((await readHistory(at)).map(({ casts }) => casts)).toEqual([15]);
  });

  it.runIf(has)(
    "a cruise of the same name that started on another day is another cruise",
    async () => {
      const at = place();
      const other = recordFor({ cruiseStart: "2022-05-03T06:00:00.000Z" });
      await addToHistory(at, [recordFor(), other]);
      expect(await readHistory(at)).toHaveLength(2);
    },
  );

  it.runIf(has)("an empty addition creates a history without records", async () => {
    const at = place();
    await addToHistory(at, []);
    expect(await readHistory(at)).toEqual([]);
  });

  it.runIf(has)("a missing history is refused by name and not created", async () => {
    const at = place();
    expect(await faultOf(readHistory(at))).toMatchObject({ file: at, found: "no such file" });
    expect(existsSync(at)).toBe(false);
  });
});

describe("histories in a folder of JSON lines", () => {
  it("concatenated history files are JSON lines with the same records", async () => {
    const folder = newFolder();
    await addToHistory(folder, [recordFor(), recordFor({ serial: "K-22" })]);
    const names = readdirSync(folder);
    expect(names).toHaveLength(2);
    const one = newFolder();
    mkdirSync(one, { recursive: true });
    const all = names.map((name) => readFileSync(join(folder, name), "utf8"));
    writeFileSync(join(one, "fleet.jsonl"), all.join(""));
    expect(await readHistory(one)).toEqual(await readHistory(folder));
  });

  it("a line that is no record is refused with its file and line; other files are ignored", async () => {
    const folder = newFolder();
    await addToHistory(folder, [recordFor()]);
    writeFileSync(join(folder, "notes.txt"), "not ours");
    writeFileSync(join(folder, ".cell-K-17.part"), '{"cut');
    expect(await readHistory(folder)).toHaveLength(1);
    writeFileSync(join(folder, "odd.jsonl"), "\n{}\n");
    expect(await faultOf(readHistory(folder))).toMatchObject({ file: "odd.jsonl", line: 2 });
  });
});

describe(`an SQLite history${skippedWithout}`, () => {
  it.runIf(sqliteHere)(
    "a row that is no record is refused with its place in the order of keys",
    async () => {
      const file = newDatabase();
      await addToHistory(file, [recordFor(), recordFor({ serial: "K-22" })]);
      const database = await openDatabase(file);
      database.exec("UPDATE cell_history SET record = '{\n}' WHERE record LIKE '%K-22%'");
      database.close();
      expect(await faultOf(readHistory(file))).toMatchObject({ file, line: 2, column: "format" });
    },
  );

  it.runIf(sqliteHere)(
    "an SQLite history answers SQL queries, with each record as JSON",
    async () => {
      const file = newDatabase();
      await addToHistory(file, [recordFor(), recordFor({ serial: "K-22" })]);
      const database = await openDatabase(file);
      const asked = "SELECT record ->> 'serial' AS serial FROM cell_history ORDER BY serial";
      const rows = database.prepare(asked).all();
      database.close();
      expect(rows.map(({ serial }) => serial)).toEqual(["K-17", "K-22"]);
    },
  );

  it.runIf(sqliteHere)(
    "a database of another program is neither read nor written into",
    async () => {
      const file = newDatabase();
      mkdirSync(join(file, ".."), { recursive: true });
      const database = await openDatabase(file);
      database.exec("CREATE TABLE stations (id TEXT)");
      database.close();
      const before = readFileSync(file);
      for (const work of [readHistory(file), addToHistory(file, [recordFor()])]) {
        expect((await faultOf(work))?.found).toBe("a database without the table cell_history");
      }
      expect(readFileSync(file)).toEqual(before);
    },
  );

  it.runIf(sqliteHere)(
    "a file that is no database, and a folder of that name, are refused by name",
    async () => {
      const file = newDatabase();
      mkdirSync(join(file, ".."), { recursive: true });
      writeFileSync(file, "pressure_dbar,temperature_C\n".repeat(9));
      for (const work of [readHistory(file), addToHistory(file, [recordFor()])]) {
        expect(await faultOf(work)).toMatchObject({
          file,
          found: "a file that is not an SQLite database",
        });
      }
      const folder = newDatabase();
      mkdirSync(folder, { recursive: true });
      expect((await faultOf(readHistory(folder)))?.found).toBe("a file that SQLite cannot open");
    },
  );

  it.runIf(sqliteHere)("a failure during an addition leaves the history unchanged", async () => {
    const file = newDatabase();
    await addToHistory(file, [recordFor()]);
    const broken = recordFor({ serial: "K-23" });
    Object.defineProperty(broken, "toJSON", {
      value: () => {
        throw new Error("the disk is gone");
      },
    });
    const both = [recordFor({ serial: "K-22" }), broken];
    await expect(addToHistory(file, both)).rejects.toThrow("the disk is gone");
    expect(await readHistory(file)).toEqual([recordFor()]);
  });

  it.skipIf(sqliteHere)(
    "a Node without SQLite refuses an SQLite history and names the alternatives",
    async () => {
      const file = newDatabase();
      const refused = await faultOf(addToHistory(file, [recordFor()]));
      expect(refused?.found).toContain(`Node ${process.version} without its module node:sqlite`);
      expect(refused?.expected).toContain("22.13");
      expect(refused?.mend).toContain("a history in JSON lines works with every Node");
      expect(existsSync(file)).toBe(false);
      mkdirSync(join(file, ".."), { recursive: true });
      writeFileSync(file, "");
      expect(await faultOf(readHistory(file))).toEqual(refused);
    },
  );
});
