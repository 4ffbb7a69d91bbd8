import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { generalCautions } from "../../src/cleaning/cautions.js";
import { defaultLadder } from "../../src/cleaning/ladder/intensities.js";
import { check } from "../../src/cli/commands/check.js";
import { UsageError } from "../../src/cli/usageError.js";
import { BadInput } from "../../src/read/badInput.js";
import type { CheckedRecord } from "../../src/report/terminal/recordSummary.js";
import { flat, run } from "./run.js";

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "foulcast-check-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

const heading =
  "time,after_cast,action,solution,concentration,minutes,soaked,drained,rinsed,serial";
function record(name: string, ...rows: readonly string[]): string {
  const path = join(folder, name);
  const full = rows.map((row) => `${row}${",".repeat(9 - row.split(",").length + 1)}`);
  writeFileSync(path, `${[heading, ...full].join("\n")}\n`);
  return path;
}
const now = ["--now", "2031-05-08T12:00:00Z"];
const calibrated = "2031-01-10T09:00Z,,calibration,,,,,,,C-17";

describe("foulcast check", () => {
  it("finds hypochlorite followed by acid without a flush a danger, at its line, with its source", async () => {
    const path = record(
      "danger.csv",
      calibrated,
      "2031-05-07T08:00Z,001,disinfect,hypochlorite,1000 ppm,45,yes,,no",
      "2031-05-07T09:30Z,001,descale,hydrochloric acid,0.1 mol/l,60,yes,yes,yes",
    );
    const { status, out } = await run(check, [path, ...now]);
    expect(status).toBe(0);
    const danger = out.slice(out.indexOf("danger:"));
    expect(danger).toMatch(/line [34] /);
    expect(danger).toContain("[CDC1991]");
    for (const limit of ["danger", "warning"]) {
      expect((await run(check, [path, ...now, "--fail-on", limit])).status).toBe(3);
    }
    // Nothing in it contradicts itself.
    expect((await run(check, [path, ...now, "--fail-on", "error"])).status).toBe(0);
  });

  it("finds at most notes in a correct record, so that no limit is met", async () => {
    const path = record(
      "clean.csv",
      calibrated,
      "2031-05-07T08:00Z,001,rinse,deionised water,,5,,,yes",
      "2031-05-07T20:00Z,002,wash,detergent,0.1 %,15,,yes,yes",
    );
    const { status, out } = await run(check, [path, ...now, "--fail-on", "warning"]);
    expect(out).toContain("No fault was found");
    expect(status).toBe(0);
  });

  it("compares the record with the casts of its cruise, and gives the same findings in JSON and in words", async () => {
    // The demonstration cruise with all but the one soak taken out of its record.
    const cruise = join(folder, "soak-alone");
    cpSync("fixtures/demo-cruise", cruise, { recursive: true });
    const path = join(cruise, "maintenance.csv");
    const kept = readFileSync(path, "utf8")
      .split("\n")
      .filter((line) => /^time|,soak,/.test(line));
    writeFileSync(path, `${kept.join("\n")}\n`);
    const words = [cruise, "--now", "2021-05-07T18:00Z"];
    const { out } = await run(check, [...words, "--json", "-"]);
    const checked = JSON.parse(out) as CheckedRecord;
    expect(checked.format).toBe("foulcast-record/1");
    const unrinsed = checked.findings.filter(({ rule }) => rule === "no-rinse-after-cast");
    // What is left is one entry, after cast 008.
    expect(unrinsed.map(({ cast }) => cast)).not.toContain("008");
    expect(unrinsed.length).toBe(12);
    const shown = flat((await run(check, words)).out);
    for (const { rule } of checked.findings) expect(shown).toContain(rule);
    for (const { cast } of unrinsed) expect(shown).toContain(`cast ${cast}`);
    for (const { what, because } of checked.due) expect(shown).toContain(`${what} ${because}`);
    for (const caution of checked.cautions) expect(shown).toContain(caution);
    expect(checked.cautions).toEqual(expect.arrayContaining([...generalCautions]));
  });

  it("an entry in the future is an error, by the clock of the machine or by the time given", async () => {
    const path = "fixtures/demo-cruise/maintenance.csv";
    const rules = async (...more: readonly string[]) => {
      const { out } = await run(check, [path, "--json", "-", ...more]);
      return (JSON.parse(out) as CheckedRecord).findings.map(({ rule }) => rule);
    };
    expect(await rules("--now", "2021-05-01")).toContain("time-in-the-future");
    expect(await rules("--now", "2021-06-01")).not.toContain("time-in-the-future");
  });

  it("a ship that works with weaker solutions finds the usual strength too strong", async () => {
    const path = record(
      "strong.csv",
      calibrated,
      "2031-05-07T08:00Z,001,soak,detergent,1 %,30,yes,yes,yes",
    );
    const procedure = join(folder, "ladder.json");
    // Every detergent of the ladder at half of its strength.
    const weaker = defaultLadder.map((rung) => ({
      ...rung,
      solutions: rung.solutions.map((solution) =>
        solution.kind === "detergent" && solution.concentration !== undefined
          ? {
              ...solution,
              concentration: {
                ...solution.concentration,
                value: solution.concentration.value / 2,
              },
            }
          : solution,
      ),
    }));
    writeFileSync(procedure, JSON.stringify(weaker));
    const rules = async (...more: readonly string[]) => {
      const { out } = await run(check, [path, ...now, "--json", "-", ...more]);
      return (JSON.parse(out) as CheckedRecord).findings.map(({ rule }) => rule);
    };
    expect(await rules()).not.toContain("too-strong");
    expect(await rules("--procedure", procedure)).toContain("too-strong");
  });

  it("reads the same record as JSON, with the same findings", async () => {
    const rows = { time: "2031-05-07T08:00Z", after_cast: "001", action: "soak", rinsed: "no" };
    const json = join(folder, "record.json");
    writeFileSync(json, JSON.stringify([rows]));
    const csv = join(folder, "record.csv");
    writeFileSync(csv, `${Object.keys(rows).join(",")}\n${Object.values(rows).join(",")}\n`);
    const findings = async (path: string) => {
      const { out } = await run(check, [path, ...now, "--json", "-"]);
      return (JSON.parse(out) as CheckedRecord).findings.map(({ line: _, ...rest }) => rest);
    };
    const found = await findings(json);
    expect(found.map(({ rule }) => rule)).toContain("no-final-flush");
    expect(await findings(csv)).toEqual(found);
  });

  it("refuses unreadable input: a cast, an unknown action, an invalid time", async () => {
    const unknown = record("unknown.csv", "2031-05-07T08:00Z,001,scrub,,,,,,");
    await expect(run(check, [unknown, ...now])).rejects.toThrow(BadInput);
    await expect(run(check, ["fixtures/demo-cruise/cast-001.csv", ...now])).rejects.toThrow(
      /maintenance record/,
    );
    await expect(run(check, [join(folder, "none.csv"), ...now])).rejects.toThrow(BadInput);
    await expect(run(check, [unknown, "--now", "soon"])).rejects.toThrow(UsageError);
    await expect(run(check, [unknown, "--fail-on", "note"])).rejects.toThrow(UsageError);
    await expect(run(check, [])).rejects.toThrow(UsageError);
  });

  it("lists the work due for frost on deck and for many casts to come, and refuses words that are not numbers", async () => {
    const path = record(
      "frost.csv",
      calibrated,
      "2031-05-07T08:00Z,001,rinse,deionised water,,5,,no,yes",
    );
    const due = async (...more: readonly string[]) =>
      flat((await run(check, [path, ...now, ...more])).out);
    expect(await due("--air-celsius=-4")).toMatch(/Drain the cell.*Down to -4 degree C/);
    expect(await due("--air-celsius=9")).not.toContain("Drain the cell");
    expect(await due()).not.toContain("Drain the cell");
    for (const word of ["--air-celsius=cold", "--air-celsius=", "--casts-to-come=0"]) {
      await expect(run(check, [path, ...now, word])).rejects.toThrow(UsageError);
    }
  });

  it("check gives the trend of the battery and the number of casts left", async () => {
    const path = join(folder, "battery.csv");
    const volts = [14.9, 14.3, 13.7, 13.1];
    const rows = volts.map(
      (v, i) => `2031-05-0${i + 3}T08:00Z,00${i + 1},battery,${v},10,alkaline`,
    );
    const names = "time,after_cast,action,battery_volts,battery_cells,battery_kind";
    writeFileSync(path, `${[names, ...rows].join("\n")}\n`);
    const { out } = await run(check, [path, ...now, "--json", "-"]);
    const { battery, due } = JSON.parse(out) as CheckedRecord;
    // 1.1 V above the least at 0.6 V a cast: one cast for sure.
    expect(battery).toMatchObject({ volts: 13.1, castsLeft: 1 });
    expect(battery!.perCast!.volts).toBeCloseTo(-0.6, 9);
    expect(due.map(({ what }) => what).join(" ")).toContain("Check the battery pack");
    expect(flat((await run(check, [path, ...now])).out)).toMatch(/-0\.60 ± 0\.0\d V a cast/);
  });

  it("writes its JSON over no file that it read: a record, a file of the cruise, the procedure", async () => {
    // An earlier output could be replaced; one that was read as the record could not, though it bears our mark.
    const mark = '{ "format": "foulcast-record/1" }';
    const record = join(folder, "own.json");
    const rows = [{ time: "2031-05-07T08:00Z", after_cast: "001", action: "rinse", note: mark }];
    writeFileSync(record, JSON.stringify(rows));
    const cruise = join(folder, "protected");
    cpSync("fixtures/demo-cruise", cruise, { recursive: true });
    const bottles = join(cruise, "bottles.csv");
    const procedure = join(folder, "procedure.json");
    writeFileSync(procedure, `${JSON.stringify(defaultLadder)}`);
    for (const [words, file] of [
      [[record], record],
      [[cruise], bottles],
      [[cruise], join(cruise, "cruise.json")],
      [[record, "--procedure", procedure], procedure],
    ] as const) {
      const before = readFileSync(file, "utf8");
      await expect(run(check, [...words, ...now, "--json", file])).rejects.toThrow(
        /is one that was read/,
      );
      expect(readFileSync(file, "utf8")).toBe(before);
    }
  });

  it("check does not change the record", async () => {
    const path = record("kept.csv", calibrated);
    const before = readFileSync(path, "utf8");
    await run(check, [path, ...now]);
    expect(readFileSync(path, "utf8")).toBe(before);
  });
});
