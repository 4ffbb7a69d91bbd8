import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { foulcast } from "./foulcast.js";

const demo = "fixtures/demo-cruise";
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "foulcast-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Rows of a CSV by heading. */
function rows(text: string): readonly Readonly<Record<string, string>>[] {
  const [headings, ...lines] = text
    .trim()
    .split("\n")
    .map((line) => line.split(","));
  return lines.map((line) => Object.fromEntries(headings!.map((name, i) => [name, line[i]!])));
}

describe("foulcast correct", () => {
  it("removes the true errors from the demonstration cast", () => {
    const csv = join(folder, "cast-010.csv");
    const { status, stdout } = foulcast(["correct", demo, "--cast", "010", "--csv", csv]);
    expect(status).toBe(0);
    expect(stdout).toContain("invented");
    const truth = rows(readFileSync(`${demo}/truth.csv`, "utf8")).find(
      ({ cast, cell, leg }) => cast === "010" && cell === "primary" && leg === "up",
    );
    const before = rows(readFileSync(`${demo}/cast-010.csv`, "utf8"));
    const after = rows(readFileSync(csv, "utf8"));
    expect(after.length).toBe(before.length);
    const last = after.length - 1;
    const taken =
      1e6 *
      (Number(before[last]!.conductivity_mS_cm) /
        Number(after[last]!.conductivity_corrected_mS_cm) -
        1);
    const uncertainty = Number(after[last]!.salinity_standard_uncertainty) / 3.9e-5;
    expect(Math.abs(taken - Number(truth!.gain_ppm))).toBeLessThan(3 * uncertainty);
    expect(Math.abs(taken)).toBeGreaterThan(60);
  });

  it("does not write over a file of the cruise", () => {
    const mine = join(folder, "mine.csv");
    writeFileSync(mine, "time_s,pressure_dbar\n0,1\n");
    const { status, stderr } = foulcast(["correct", demo, "--cast", "010", "--csv", mine]);
    expect(status).toBe(2);
    expect(stderr).toContain("left as it is");
    expect(readFileSync(mine, "utf8")).toBe("time_s,pressure_dbar\n0,1\n");
  });

  it("lists the casts if an unknown one is named", () => {
    const { status, stderr } = foulcast([
      "correct",
      demo,
      "--cast",
      "99",
      "--csv",
      join(folder, "x.csv"),
    ]);
    expect(status).toBe(2);
    expect(stderr).toContain("there are 001");
  });
});

describe("foulcast simulate", () => {
  it("writes a cruise that can be assessed, identical for the same seed, and never overwrites it", () => {
    const [a, b] = [join(folder, "a"), join(folder, "b")];
    expect(foulcast(["simulate", a, "--seed", "5"]).status).toBe(0);
    expect(foulcast(["simulate", b, "--seed", "5"]).status).toBe(0);
    expect(readFileSync(join(a, "bottles.csv"), "utf8")).toBe(
      readFileSync(join(b, "bottles.csv"), "utf8"),
    );
    expect(existsSync(join(a, "truth.csv"))).toBe(true);
    expect(foulcast(["assess", a]).status).toBe(0);
    const again = foulcast(["simulate", a, "--seed", "6"]);
    expect(again.status).toBe(2);
    expect(again.stderr).toContain("left as they are");
  });

  it("reads a scenario from a file and names its impossible values", () => {
    const file = join(folder, "scenario.json");
    writeFileSync(file, JSON.stringify({ seed: 1, casts: 3, ocean: "shelf" }));
    expect(foulcast(["simulate", join(folder, "c"), "--scenario", file]).status).toBe(0);
    for (const [i, wrong] of ['{"seed":1,"casts":0}', "[]", "null", "not json"].entries()) {
      writeFileSync(file, wrong);
      const { status, stderr } = foulcast([
        "simulate",
        join(folder, `wrong-${i}`),
        "--scenario",
        file,
      ]);
      expect(status, wrong).toBe(2);
      expect(stderr).not.toMatch(/^\s+at /m);
      expect(existsSync(join(folder, `wrong-${i}`))).toBe(false);
    }
  });
});
