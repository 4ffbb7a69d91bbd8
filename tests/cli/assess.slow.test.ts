import {
  cpSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { software } from "../../src/software.js";
import type { VerdictDocument } from "../../src/verdict/verdict.js";
import { verdictSchema } from "../../src/verdict/verdictSchema.js";
import { foulcast, foulcastCutShort } from "./foulcast.js";

const demo = "fixtures/demo-cruise";
/** Characters that move the cursor, colour, ring, or turn the direction of text; not the end of a line. */
const control = /(?!\n)[\p{Cc}\p{Bidi_Control}]/u;
/** Where node says that an error was not caught. */
const trace = /^\s+at .*:\d+:\d+|node:internal/m;

let folder: string;
/** The first three casts of the demonstration cruise, without a description, each file named as its cast. */
let few: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "foulcast-"));
  few = join(folder, "no-description");
  mkdirSync(few);
  for (const id of ["001", "002", "003"]) cpSync(`${demo}/cast-${id}.csv`, join(few, `${id}.csv`));
  cpSync(`${demo}/maintenance.csv`, join(few, "maintenance.csv"));
  const bottlesOf = readFileSync(`${demo}/bottles.csv`, "utf8").split("\n");
  const first = bottlesOf.filter((line) => /^(cast|00[123])/.test(line));
  writeFileSync(join(few, "bottles.csv"), `${first.join("\n")}\n`);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A folder with these files, under a name of its own. */
function folderOf(name: string, files: Readonly<Record<string, string>>): string {
  const path = join(folder, name);
  mkdirSync(path, { recursive: true });
  for (const [file, text] of Object.entries(files)) writeFileSync(join(path, file), text);
  return path;
}

/** A cruise small enough to be read at once: closures with both readings, invented. */
const bottles = [
  "cast,bottle,pressure_dbar,salinity,ctd_temperature_C,ctd_conductivity_mS_cm",
  ...["1", "2"].flatMap((cast) =>
    [1000, 1500, 2000, 2500].map(
      (p, i) => `${cast},${i + 1},${p},34.9,4,${(32.9166 + ((p - 1000) * 0.0142) / 10).toFixed(4)}`,
    ),
  ),
].join("\n");

describe("foulcast assess on the demonstration cruise", () => {
  it("assess of the demonstration cruise exits 0, calls it invented, and names the true cause of the newest cast", () => {
    const { status, stdout, stderr } = foulcast(["assess", demo]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toMatch(/invented/);
    expect(stdout).toMatch(/Cast 014/);
    const truth = readFileSync(`${demo}/truth.csv`, "utf8").trim().split("\n");
    for (const cell of ["primary", "secondary"]) {
      const cause = truth
        .find((line) => line.startsWith(`014,${cell},up,`))!
        .split(",")
        .at(-1)!;
      expect(stdout).toMatch(new RegExp(`^${cell} cell +(not )?clean \\(${cause}, `, "m"));
    }
    expect(stdout).toMatch(/^cautions/m);
    // A pipe has no colours.
    expect(stdout).not.toMatch(control);
  });

  it("--json - writes a verdict that passes the schema, and nothing else; --fail-on exits 3 where it is met", () => {
    const words = ["assess", demo, "--json", "-", "--fail-on", "questionable,fouling"];
    const { status, stdout, stderr } = foulcast(words);
    expect({ status, stderr }).toEqual({ status: 3, stderr: "" });
    const document = verdictSchema.parse(JSON.parse(stdout));
    expect(document.latest).toBe("014");
    expect(document.casts).toHaveLength(14);
    expect(document.software.version).toBe(software.version);
    // Name and fingerprint of every file that went into it: description, casts, bottles, maintenance.
    expect(document.inputs).toHaveLength(17);
    for (const { sha256 } of document.inputs) expect(sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it("--json FILE writes the verdict in addition to the summary; --cast ID selects the cast that is shown and that --fail-on checks", () => {
    const file = join(folder, "verdict.json");
    const words = ["assess", few, "--cast", "002", "--json", file, "--fail-on", "fouling"];
    const { status, stdout } = foulcast(words, { NO_COLOR: "1" });
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Cast 002/m);
    expect(stdout).not.toMatch(/^Cast 003/m);
    verdictSchema.parse(JSON.parse(readFileSync(file, "utf8")));
  });

  it("a closed output pipe is no error", async () => {
    const { status, stdout, stderr } = await foulcastCutShort(["assess", few, "--json", "-"]);
    expect(stdout.startsWith("{")).toBe(true);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
  });
});

describe("foulcast assess on common inputs", () => {
  it("a folder without cruise.json gets a verdict, with its bottles assigned to their casts", () => {
    const { status, stdout, stderr } = foulcast(["assess", few, "--json", "-"]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const document: VerdictDocument = JSON.parse(stdout);
    expect(document.casts.map(({ cast }) => cast)).toEqual(["001", "002", "003"]);
    for (const { evidence } of document.casts) {
      expect(new Set(evidence.map(({ line }) => line))).toEqual(
        new Set(["bottles", "pair", "legs", "deep-water"]),
      );
    }
  });

  it("a lone table of bottles is a cruise", () => {
    const { status, stdout } = foulcast([
      "assess",
      join(folderOf("b", { "b.csv": bottles }), "b.csv"),
    ]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Cast 2$/m);
  });

  it("escape codes and reversed text in names of files and casts reach neither stream", () => {
    const hostile = "\u001b[31mred\u001b[0m\u202etxt\u0007";
    const path = folderOf(`hostile-${hostile}`, {
      "b.csv": bottles.replaceAll(/^2,/gm, `${hostile},`),
    });
    const good = foulcast(["assess", join(path, "b.csv")]);
    expect({ status: good.status, stderr: good.stderr }).toEqual({ status: 0, stderr: "" });
    expect(good.stdout).not.toMatch(control);
    expect(good.stdout).toMatch(/red/);
    for (const words of [
      [join(path, "b.csv"), "--cast", "none"],
      [join(path, "missing-\u001b[2J.csv")],
      [join(folderOf("h", { [`${hostile}.csv`]: "a,b\n1\n" }), `${hostile}.csv`)],
      [join(folderOf("i", { "b.csv": bottles.replace("34.9", hostile) }), "b.csv")],
      [join(path, "b.csv"), `--${hostile}`],
    ]) {
      const { status, stdout, stderr } = foulcast(["assess", ...words]);
      // A salinity that is no number may be left out and listed, or refused.
      expect([0, 2]).toContain(status);
      expect(stdout).not.toMatch(control);
      expect(stderr).not.toMatch(control);
      expect(stderr).not.toMatch(trace);
    }
  });
});

describe("foulcast assess on a single cast", () => {
  const cast = `${demo}/cast-001.csv`;

  it("with its bottles, record, target and minutes as options gives a verdict that uses them", () => {
    const root = folderOf("single", {});
    cpSync(cast, join(root, "cast-001.csv"));
    const salts = readFileSync(`${demo}/bottles.csv`, "utf8").split("\n");
    writeFileSync(join(root, "b.csv"), salts.filter((line) => /^(cast|001)/.test(line)).join("\n"));
    writeFileSync(join(root, "m.csv"), "after_cast,action\n1,rinse\n");
    const words = ["--bottles", join(root, "b.csv"), "--record", join(root, "m.csv")];
    const more = ["--target", "0.003", "--minutes", "45", "--json", "-"];
    const { status, stdout, stderr } = foulcast([
      "assess",
      join(root, "cast-001.csv"),
      ...words,
      ...more,
    ]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const document: VerdictDocument = JSON.parse(stdout);
    expect(document.casts.map((verdict) => verdict.cast)).toEqual(["001"]);
    expect(document.cruise.target).toBe(0.003);
    expect(document.casts[0]!.evidence.map(({ line }) => line)).toContain("bottles");
    expect(document.inputs.map(({ role }) => role)).toEqual(["cast", "bottles", "maintenance"]);
  });

  it("beside the bottles of a whole cruise shows the cast of the file, and its name first in brief", () => {
    const salts = ["--bottles", `${demo}/bottles.csv`];
    const { status, stdout } = foulcast(["assess", cast, ...salts, "--brief"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Cast 001: primary: clean, sound/);
    const shown = foulcast(["assess", cast, ...salts]).stdout.replaceAll(/\s+/g, " ");
    expect(shown).toContain("bottles of casts without a file, ignored: 156");
  });

  it("with other headings offers them, takes them by --column, and from a file by --columns", () => {
    const odd = readFileSync(cast, "utf8").replace("pressure_dbar,temperature_C", "Pres,Temp");
    const root = folderOf("headings", {
      "a.csv": odd,
      "columns.json": '{ "pressure_dbar": "Pres", "temperature_C": "Temp" }',
      "wrong.json": '{ "pressure": "Pres" }',
    });
    const path = join(root, "a.csv");
    const refused = foulcast(["assess", path]);
    expect(refused.status).toBe(2);
    expect(refused.stderr).toMatch(/Did you mean "Pres".*--column pressure_dbar=Pres/);
    const words = ["--column", "pressure_dbar=Pres", "--column", "temperature_C=Temp"];
    expect(foulcast(["assess", path, ...words]).status).toBe(0);
    expect(foulcast(["assess", path, "--columns", join(root, "columns.json")]).status).toBe(0);
    expect(foulcast(["assess", path, "--columns", join(root, "wrong.json")]).stderr).toMatch(
      /wrong\.json/,
    );
    expect(foulcast(["assess", path, "--column", "Pres"]).stderr).toMatch(
      /--column Pres: expected/,
    );
  });

  it("a cast is found by its number: --cast 2 is cast 002", () => {
    const { status, stdout } = foulcast(["assess", few, "--cast", "2"]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^Cast 002/m);
  });
});

describe("foulcast assess on unusable inputs", () => {
  const refused = (words: readonly string[]) => {
    const { status, stdout, stderr } = foulcast(words);
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).not.toMatch(trace);
    expect(stderr).not.toBe("");
    return stderr;
  };

  it("unknown words exit 2 and list the known ones", () => {
    const path = join(folderOf("words", { "b.csv": bottles }), "b.csv");
    expect(refused(["assess", path, "--cast", "099"])).toMatch(/no such cast; there are 1, 2/);
    expect(refused(["assess", path, "--colour"])).toMatch(/--colour/);
    expect(refused(["assess", path, "--fail-on", "toString"])).toMatch(/expected one of fouling/);
    expect(refused(["assess", path, "--confidence", "90"])).toMatch(/from 0.5 to 0.999/);
    expect(refused(["assess", path, path])).toMatch(/one folder or file/);
    expect(refused(["guess"])).toMatch(/no command guess/);
  });

  it("a missing path, an empty folder and an empty file exit 2 with the reason", () => {
    expect(refused(["assess", join(folder, "nowhere")])).toMatch(/nowhere/);
    refused(["assess", folderOf("empty", {})]);
    expect(refused(["assess", join(folderOf("e", { "e.csv": "" }), "e.csv")])).toMatch(/e\.csv/);
  });

  it("a broken table exits 2 with file, line, found, expected and the correction", () => {
    const unheaded = bottles.replace("pressure_dbar", "depth_fathoms");
    const openQuote = bottles.replace("2,1,1000,34.9", '2,1,"1000,34.9');
    for (const [name, text] of [
      ["unheaded", unheaded],
      ["quote", openQuote],
    ] as const) {
      const stderr = refused(["assess", join(folderOf(name, { "b.csv": text }), "b.csv")]);
      expect(stderr).toMatch(/b\.csv, line \d+/);
      expect(stderr).toMatch(/found .*expected /s);
      expect(stderr.length).toBeGreaterThan(80);
    }
  });

  it("an unreadable row is excluded, counted and named, and the rest has its verdict", () => {
    const text = bottles.replace(",2000,", ",two thousand,");
    const { status, stdout } = foulcast([
      "assess",
      join(folderOf("row", { "b.csv": text }), "b.csv"),
    ]);
    expect(status).toBe(0);
    expect(stdout.replaceAll(/\s+/g, " ")).toMatch(
      /left out b\.csv: 1 of 8 rows, first line 4: .*two thousand.*expected a number/,
    );
  });

  it("a description that is not JSON, or names a missing file, exits 2", () => {
    expect(refused(["assess", folderOf("j", { "cruise.json": "{" })])).toMatch(/cruise\.json/);
    const cruise = JSON.stringify({ name: "x", casts: [{ id: "1", file: "gone.csv" }] });
    expect(refused(["assess", folderOf("k", { "cruise.json": cruise })])).toMatch(/gone\.csv/);
  });

  it("assess overwrites only its own files, and names a place that it cannot write", () => {
    const path = folderOf("raw", { "b.csv": bottles });
    const raw = join(path, "b.csv");
    expect(refused(["assess", raw, "--json", raw])).toMatch(/left as it is/);
    expect(readFileSync(raw, "utf8")).toBe(bottles);
    expect(refused(["assess", raw, "--json", join(path, "none", "v.json")])).toMatch(
      /cannot be written/,
    );
    expect(refused(["assess", raw, "--json", path])).toMatch(/cannot be written/);
    expect(refused(["assess", raw, "--json", "/dev/null"])).toMatch(/cannot be written/);
    expect(statSync(path).isDirectory()).toBe(true);
  });

  it("assess never overwrites a file that it read, for any content and any path to it", () => {
    const verdict = '# "format": "foulcast-verdict/';
    const path = folderOf("marked", { "b.csv": `${verdict}\n${bottles}` });
    const raw = join(path, "b.csv");
    symlinkSync(raw, join(path, "v.json"));
    for (const name of ["b.csv", "../marked/b.csv", "v.json"]) {
      expect(refused(["assess", raw, "--json", join(path, name)])).toMatch(/is one that was read/);
    }
    expect(readFileSync(raw, "utf8")).toContain(verdict);
    const ours = join(path, "own.json");
    symlinkSync(ours, join(path, "link.json"));
    expect(foulcast(["assess", raw, "--json", join(path, "link.json")]).status).toBe(0);
    expect(lstatSync(join(path, "link.json")).isSymbolicLink()).toBe(true);
    verdictSchema.parse(JSON.parse(readFileSync(ours, "utf8")));
    // Nothing is left beside it.
    expect(readdirSync(path).toSorted()).toEqual(["b.csv", "link.json", "own.json", "v.json"]);
  });
});

describe("foulcast itself", () => {
  it("--version gives the version of the package, --help the commands, and the --help of a command its options", () => {
    expect(foulcast(["--version"])).toEqual({
      status: 0,
      stdout: `${software.version}\n`,
      stderr: "",
    });
    const help = foulcast(["--help"]);
    expect(help.status).toBe(0);
    expect(help.stdout).toMatch(/^ {2}assess/m);
    const assess = foulcast(["assess", "--help"]);
    expect(assess.status).toBe(0);
    for (const option of ["--cast", "--json", "--confidence", "--fail-on"]) {
      expect(assess.stdout).toContain(option);
    }
    expect(foulcast([]).status).toBe(2);
  });
});
