import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readCruise } from "../../src/node/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const demo = "fixtures/demo-cruise";
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "foulcast-"));
  cpSync(demo, folder, { recursive: true });
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function describeCruise(change: (description: Record<string, unknown>) => void): void {
  const description = JSON.parse(readFileSync(join(demo, "cruise.json"), "utf8"));
  change(description);
  writeFileSync(join(folder, "cruise.json"), JSON.stringify(description));
}

describe("a reference table of deep water in the cruise folder", () => {
  it("a deep reference table in the cruise folder is read, and gives evidence without bottles", async () => {
    // The demonstration's own deep water, as its first casts read it: invented, as the cruise is.
    const rows = readFileSync(join(demo, "cast-002.csv"), "utf8").trim().split("\n");
    const headings = rows[0]!.split(",");
    const at = (row: string, name: string) => Number(row.split(",")[headings.indexOf(name)]);
    const { spFromC, pt0FromT, srFromSp } = await import("../../src/seawater/index.js");
    const half = rows.slice(1, 1 + Math.floor((rows.length - 1) / 2));
    const table = half
      .filter((row) => at(row, "pressure_dbar") > 1000)
      .map((row) => {
        const [p, t, c] = ["pressure_dbar", "temperature_C", "conductivity_mS_cm"].map((name) =>
          at(row, name),
        ) as [number, number, number];
        const sp = spFromC(c, t, p);
        return `${pt0FromT(srFromSp(sp), t, p).toFixed(5)},${sp.toFixed(5)}`;
      });
    writeFileSync(
      join(folder, "deep.csv"),
      ["potential_temperature_C,salinity", ...new Set(table)].join("\n"),
    );
    describeCruise((description) => {
      description.deepWater = { file: "deep.csv", standardUncertainty: 0.001 };
      delete description.bottles;
    });
    const cruise = await readCruise(folder);
    expect(cruise.deepReference!.salinity.length).toBe(new Set(table).size);
    expect(cruise.inputs.map(({ role }) => role)).toContain("reference");
    const { casts } = assessCruise(cruise);
    expect(casts[0]!.evidence.some(({ line }) => line === "deep-water")).toBe(true);
    expect(casts[0]!.notes.join()).not.toContain("no reference yet");
    // One standard uncertainty of the table is 26 ppm: the film of -190 ppm on cast 008 is far beyond it.
    const eighth = casts.find(({ cast }) => cast === "009")!.cells.primary!.gainError.up;
    expect(Math.abs(eighth.ppm + 118)).toBeLessThan(4 * eighth.standardUncertainty + 10);
  });

  it("a faulty deep reference table is refused with the fault of each row", async () => {
    writeFileSync(
      join(folder, "deep.csv"),
      "potential_temperature_C,salinity\n2,34.9\n2,34.8\nwarm,34.7\n",
    );
    await expect(readCruise(folder)).rejects.toThrow(
      /deep\.csv, line 4.*"warm".*[\s\S]*expected 6 or more/,
    );
  });

  it("a deep reference table without any uncertainty is refused", async () => {
    describeCruise((description) => {
      description.deepWater = { file: "deep.csv" };
    });
    await expect(readCruise(folder)).rejects.toThrow(/deepWater\.standardUncertainty/);
  });
});
