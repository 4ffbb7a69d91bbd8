import {
  cpSync,
  existsSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { temporaryFolder } from "../temporaryFolder.js";
import { foulcast } from "./foulcast.js";

const demo = "fixtures/demo-cruise";
const folder = temporaryFolder("kept-beside");
const bottles = readFileSync(`${demo}/bottles.csv`, "utf8");
const kept = (cruise: string) => join(cruise, ".foulcast", "cruise.json");

/** A cruise folder of the first casts of the demonstration cruise. */
function cruiseOf(name: string, ids: readonly string[], ofBottles = bottles): string {
  const path = join(folder, name);
  for (const id of ids) cpSync(`${demo}/cast-${id}.csv`, join(path, `${id}.csv`));
  const own = ofBottles
    .split("\n")
    .filter((line) => /^cast/.test(line) || ids.includes(line.slice(0, 3)));
  writeFileSync(join(path, "bottles.csv"), `${own.join("\n")}\n`);
  return path;
}

/** What a run says, and the casts whose scans it read. */
function assess(path: string, ...words: readonly string[]) {
  const { status, stdout, stderr } = foulcast(["assess", path, "--json", "-", ...words], {
    NODE_DEBUG: "foulcast",
  });
  const read = [...stderr.matchAll(/the scans of (\S+) are read/g)].map(([, file]) => file!);
  return { status, stdout, read };
}

describe("the results that foulcast assess stores beside a cruise", () => {
  it("with stored results a new cast is assessed from its scans alone, with the same result as reading all files", () => {
    const path = cruiseOf("one-more", ["001", "002"]);
    expect(assess(path).read).toEqual(["001.csv", "002.csv"]);
    cruiseOf("one-more", ["001", "002", "003"]);
    const more = assess(path);
    expect(more.read).toEqual(["003.csv"]);
    expect(more.stdout).toBe(assess(path, "--no-cache").stdout);
    const again = assess(path);
    expect(again.read).toEqual([]);
    expect(again.stdout).toBe(more.stdout);
  });

  it("stored results of another build of the same version are not used", () => {
    const path = cruiseOf("other-build", ["001", "002"]);
    const { stdout } = assess(path);
    const text = readFileSync(kept(path), "utf8");
    const build = /"format":"foulcast-beside\/1 ([\w-]+\.js)"/.exec(text)![1]!;
    // The bundler names it by its content.
    expect(build).toMatch(/-[A-Z0-9]{8}\.js$/);
    writeFileSync(kept(path), text.replace(build, "assess-OTHER123.js"));
    const again = assess(path);
    expect(again.read).toEqual(["001.csv", "002.csv"]);
    expect(again.stdout).toBe(stdout);
  });

  it("late laboratory values, and a bottle not listed with its cast, update the stored results", () => {
    const rows = bottles.split("\n");
    const salinity = rows[0]!.split(",").indexOf("salinity");
    const blank = rows.map((row, i) =>
      i === 0 || row === ""
        ? row
        : row
            .split(",")
            .map((cell, k) => (k === salinity ? "" : cell))
            .join(","),
    );
    const path = cruiseOf("late", ["001", "002"], blank.join("\n"));
    assess(path);
    cruiseOf("late", ["001", "002"]);
    const late = assess(path);
    expect(late.read).toEqual([]);
    expect(late.stdout).toBe(assess(path, "--no-cache").stdout);
    const first = rows.findIndex((row) => row.startsWith("002"));
    cruiseOf("late", ["001", "002"], rows.filter((_, i) => i !== first).join("\n"));
    const other = assess(path);
    expect(other.read).toEqual(["002.csv"]);
    expect(other.stdout).toBe(assess(path, "--no-cache").stdout);
  });

  it("stored results are not used for a file with other bytes but the same size and time", () => {
    const path = cruiseOf("changed", ["001", "002"]);
    assess(path);
    const file = join(path, "001.csv");
    const { atime, mtime } = statSync(file);
    const text = readFileSync(file, "utf8");
    const lines = text.split("\n");
    const half = Math.floor(lines.length / 2);
    lines[half] = lines[half]!.replace(/\d(?=\D*$)/, (digit) => String((Number(digit) + 5) % 10));
    writeFileSync(file, lines.join("\n"));
    utimesSync(file, atime, mtime);
    const changed = assess(path);
    expect(changed.read).toEqual(["001.csv"]);
    expect(changed.stdout).toBe(assess(path, "--no-cache").stdout);
  });

  it("damaged, cut or older stored results are ignored, with the same output as without them", () => {
    const path = cruiseOf("damaged", ["001", "002"]);
    const { stdout } = assess(path);
    const text = readFileSync(kept(path), "utf8");
    const digit = text.lastIndexOf("7");
    for (const damaged of [
      "",
      "{}",
      text.slice(0, text.length / 2),
      `${text.slice(0, digit)}8${text.slice(digit + 1)}`,
      text.replace(/"version":"[^"]*"/, '"version":"0.0.1"'),
    ]) {
      expect(damaged).not.toBe(text);
      writeFileSync(kept(path), damaged);
      const run = assess(path);
      expect(run).toEqual({ status: 0, stdout, read: ["001.csv", "002.csv"] });
    }
    expect(assess(path).read).toEqual([]);
  });

  it("nothing is stored if the folder cannot be written or --no-cache is given", () => {
    const path = cruiseOf("unwritable", ["001"]);
    const plain = foulcast(["assess", path, "--no-cache"]);
    expect(existsSync(join(path, ".foulcast"))).toBe(false);
    // A file of that name: nothing can be put into it, whoever asks.
    writeFileSync(join(path, ".foulcast"), "");
    expect(foulcast(["assess", path])).toEqual(plain);
    rmSync(join(path, ".foulcast"));
    foulcast(["assess", path]);
    expect(existsSync(kept(path))).toBe(true);
  });
});
