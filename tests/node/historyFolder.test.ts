import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { BadInput } from "../../src/index.js";
import { addToHistory, readHistory } from "../../src/node/index.js";
import { recordFor } from "../history/recordFor.js";
import { temporaryFolder } from "../temporaryFolder.js";

const base = temporaryFolder("history");
let count = 0;
const newFolder = () => join(base, `folder-${count++}`, "histories");

describe("histories in a folder", () => {
  it("records come back as they were, from a folder that is made for them", async () => {
    const folder = newFolder();
    const records = [recordFor(), recordFor({ serial: "K/22 ü" })];
    await addToHistory(folder, records);
    expect(await readHistory(folder)).toEqual(records);
    expect(readdirSync(folder)).toHaveLength(2);
  });

  it("the same cruise assessed again replaces its line and never doubles it", async () => {
    const folder = newFolder();
    await addToHistory(folder, [recordFor()]);
    await addToHistory(folder, [recordFor({ casts: 15 })]);
    expect((await readHistory(folder)).map(({ casts }) => casts)).toEqual([15]);
  });

  it("a cruise with the same name and another start is a different cruise", async () => {
    const folder = newFolder();
    await addToHistory(folder, [
      recordFor(),
      recordFor({ cruiseStart: "2022-05-03T06:00:00.000Z" }),
    ]);
    expect(await readHistory(folder)).toHaveLength(2);
  });

  it("the concatenated files are JSON lines with the same content", async () => {
    const folder = newFolder();
    await addToHistory(folder, [recordFor(), recordFor({ serial: "K-22" })]);
    const all = readdirSync(folder).map((name) => readFileSync(join(folder, name), "utf8"));
    const one = newFolder();
    mkdirSync(one, { recursive: true });
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
    const refused = await readHistory(folder).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(BadInput);
    expect((refused as BadInput).faults[0]).toMatchObject({ file: "odd.jsonl", line: 2 });
  });

  it("a folder that is not there is refused by name", async () => {
    await expect(readHistory(join(base, "nowhere"))).rejects.toThrow(/nowhere: found no such file/);
  });
});
