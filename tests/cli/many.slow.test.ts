// An archive assessed by a process of its own: same bytes on one core and on all, taken up where it stopped.
import { spawn, spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { assessCruise, verdictSchema } from "../../src/index.js";
import { readCruise } from "../../src/node/index.js";
import { cruiseFiles, randomStream, simulateCruise } from "../../src/simulate/index.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { foulcast, main } from "./foulcast.js";

const seed = 20310513;
const base = temporaryFolder("many");
const sound = Array.from({ length: 8 }, (_, i) => join(base, `cruise ${i + 1}`));
const names = [
  ...sound.slice(0, 3),
  join(base, "nowhere"),
  ...sound.slice(3, 6),
  join(base, "odd.csv"),
  ...sound.slice(6),
];
const input = `${names.join("\n")}\n`;
const many = (words: readonly string[], given = input) =>
  foulcast(["assess", "--many", ...words], {}, given);
let whole = "";

beforeAll(() => {
  for (const [i, folder] of sound.entries()) {
    mkdirSync(folder);
    const scenario = { seed: 71 + i, casts: 1 + (i % 3), deepest_dbar: 800, name: `Cruise ${i}` };
    const files = cruiseFiles(simulateCruise(scenario));
    for (const [name, text] of files) writeFileSync(join(folder, name), text);
  }
  writeFileSync(
    join(base, "odd.csv"),
    "time_s,pressure_dbar,temperature_C,conductivity_mS_cm\n0,x,1,2\n",
  );
  whole = many(["--cores", "1"]).stdout;
});

const linesOf = (text: string) =>
  text
    .trimEnd()
    .split("\n")
    .map((line) => JSON.parse(line) as Record<string, unknown>);

describe("an archive of eight cruises, a name that is no file and a file that is no cast", () => {
  it("an archive gives one line per name, in order: the verdicts of assessCruise, or faults with their place", async () => {
    const lines = linesOf(whole);
    expect(lines.map(({ name }) => name)).toEqual(names);
    for (const { name, document } of lines) {
      if (!sound.includes(name as string)) continue;
      expect(verdictSchema.safeParse(document).success).toBe(true);
      const own = assessCruise(await readCruise(name as string));
      expect(document).toEqual(JSON.parse(JSON.stringify(own)));
    }
    expect(lines[3]).toMatchObject({ faults: [{ line: 0, found: "no such file" }] });
    expect(lines[7]!.faults).toHaveLength(1);
    expect(lines[7]).toMatchObject({ faults: [{ file: "odd.csv" }] });
  });

  it("the lines of an archive are identical on one core, two cores and all cores", () => {
    expect(many(["--cores", "2"]).stdout).toBe(whole);
    expect(many([]).stdout).toBe(whole);
  });

  it("the exit status gives the number of cruises with a fault: 0 for none, otherwise 10 plus their number", () => {
    expect(many([]).status).toBe(12);
    expect(many([], `${sound[0]}\n`).status).toBe(0);
    expect(many([], "").status).toBe(0);
  });

  it("an archive in pieces, one process each, gives the same lines", () => {
    const pieces = [names.slice(0, 4), names.slice(4, 5), names.slice(5)].map(
      (some) => many(["--cores", "1"], some.map((name) => `${name}\n`).join("")).stdout,
    );
    expect(pieces.join("")).toBe(whole);
  });

  it("unsuitable options are refused before a name is read", () => {
    for (const words of [["--json", "x"], ["--cores", "0"], [sound[0]!]]) {
      expect(many(words)).toMatchObject({ status: 2, stdout: "" });
    }
  });
});

describe("an archive that is added to a file", () => {
  it("an archive output cut at any byte is continued to the same file and exit status", () => {
    const random = randomStream(seed);
    const file = join(base, "cut.jsonl");
    const bytes = Buffer.from(whole);
    for (const at of [5, bytes.length - 1, ...[1, 2].map(() => random.uniform())]) {
      writeFileSync(file, bytes.subarray(0, at < 1 ? Math.floor(at * bytes.length) : at));
      expect(many(["--append", file])).toMatchObject({ status: 12, stdout: "" });
      expect(readFileSync(file, "utf8")).toBe(whole);
    }
  });

  it(`is whole in the end where its process is killed at random moments (seed ${seed})`, async () => {
    const random = randomStream(seed).split("kills");
    const file = join(base, "killed.jsonl");
    for (let k = 0; k < 12; k++) {
      const child = spawn(process.execPath, [main, "assess", "--many", "--append", file], {
        stdio: ["pipe", "ignore", "inherit"],
      });
      const gone = new Promise((ended) => child.once("close", ended));
      child.stdin.on("error", () => {});
      child.stdin.end(input);
      await new Promise((later) => setTimeout(later, 4000 * random.uniform()));
      child.kill("SIGKILL");
      await gone;
    }
    expect(many(["--append", file]).status).toBe(12);
    expect(readFileSync(file, "utf8")).toBe(whole);
  });

  it("a foreign output file is refused and not changed", () => {
    const file = join(base, "raw.csv");
    for (const raw of ["1,2,3\n4,5,6\n", '{"name":"x"}\n', "1,2,3"]) {
      writeFileSync(file, raw);
      const { status, stderr } = many(["--append", file]);
      expect(status).toBe(2);
      expect(stderr).toContain("did not write this file");
      expect(readFileSync(file, "utf8")).toBe(raw);
    }
  });
});

describe("an archive over many machines", () => {
  const python = process.env.PYTHON ?? "python3";
  const has = (command: string, words: readonly string[]) => spawnSync(command, words).status === 0;
  const there = has("java", ["-version"]) && has(python, ["-c", "import pyspark"]);

  it.skipIf(!there)(
    "the example of docs/archive.md gives the same lines on Apache Spark in local mode (skipped where java or pyspark is absent)",
    () => {
      const list = join(base, "names.txt");
      const out = join(base, "spark");
      writeFileSync(list, input);
      const page = readFileSync("docs/archive.md", "utf8");
      const [, script] = /```text\n(import sys\n.*?)```/s.exec(page)!;
      const ran = spawnSync(python, ["-", list, out, `${process.execPath} ${main}`], {
        input: script!,
        encoding: "utf8",
      });
      expect(ran.status, ran.stderr).toBe(0);
      const gathered = spawnSync("sh", ["-c", `cat '${out}'/part-*`], {
        encoding: "utf8",
        maxBuffer: 64e6,
      });
      expect(gathered.stdout.split("\n").sort()).toEqual(whole.split("\n").sort());
    },
  );
});
