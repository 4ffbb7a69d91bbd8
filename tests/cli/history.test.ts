import { cpSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { assess } from "../../src/cli/commands/assess.js";
import { correct } from "../../src/cli/commands/correct.js";
import { history } from "../../src/cli/commands/history.js";
import { UsageError } from "../../src/cli/usageError.js";
import { readHistory } from "../../src/node/index.js";
import { cruiseFiles, simulateCruise } from "../../src/simulate/index.js";
import { elementsOf } from "../figures/elementsOf.js";
import { skippedWithout, sqliteHere } from "../node/sqliteHere.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { flat, run } from "./run.js";

const base = temporaryFolder("cli-history");
const [spring, autumn, bare] = ["spring", "autumn", "bare"].map((name) => join(base, name));
const folder = join(base, "histories");

/** The same invented cruise, in another month; its cell named, or not. */
beforeAll(() => {
  const files = cruiseFiles(
    simulateCruise({ seed: 61, casts: 1, deepest_dbar: 800, cells: ["primary"] }),
  );
  mkdirSync(spring!);
  for (const [name, text] of files) writeFileSync(join(spring!, name), text);
  cpSync(spring!, autumn!, { recursive: true });
  cpSync(spring!, bare!, { recursive: true });
  for (const [path, name, month, serial] of [
    [spring, "Spring (invented)", "05", "K-17"],
    [autumn, "Autumn (invented)", "10", "K-17"],
  ] as const) {
    const file = join(path!, "cruise.json");
    const { nextStation: _, ...description } = JSON.parse(readFileSync(file, "utf8"));
    description.name = name;
    for (const cast of description.casts) cast.start = cast.start.replace("-05-", `-${month}-`);
    description.instrument.sensors = { primary: { cell: serial, cellCalibrated: "2021-01-10" } };
    writeFileSync(file, JSON.stringify(description));
  }
});

describe("foulcast history", () => {
  it("assess without --history neither reads, writes nor mentions a history", async () => {
    const { out } = await run(assess, [autumn!, "--full"]);
    expect(out).not.toContain("history");
    expect(readdirSync(base)).not.toContain("histories");
  });

  it("assess --add-to-history makes the folder, and the same cruise again replaces its line", async () => {
    const words = [spring!, "--history", folder, "--add-to-history", "--brief"];
    expect((await run(assess, words)).status).toBe(0);
    expect((await run(assess, words)).status).toBe(0);
    const records = await readHistory(folder);
    expect(records).toHaveLength(1);
    expect(records[0]).toMatchObject({ serial: "K-17", casts: 1, calibrated: "2021-01-10" });
  });

  it("assess --history starts from the history with a note, and adds nothing without --add-to-history", async () => {
    const { out } = await run(assess, [autumn!, "--history", folder, "--full"]);
    expect(flat(out)).toContain("history of primary cell K-17, last seen on Spring (invented)");
    expect(await readHistory(folder)).toHaveLength(1);
  });

  it("--add assesses a cruise and adds it; the fleet table shows a cell as due by date after a year", async () => {
    const { out } = await run(history, [folder, "--add", autumn!, "--now", "2022-02-01"]);
    expect(out).toContain("Cell K-17 is due for calibration: 387 days since its calibration");
    expect(out).toMatch(/^K-17 {2}2 {8}2 /m);
  });

  it("--serial shows one cell cruise by cruise, and --figure draws it", async () => {
    const figure = join(base, "K-17.svg");
    const { out } = await run(history, [folder, "--serial", "K-17", "--figure", figure]);
    expect(out.indexOf("Spring")).toBeLessThan(out.indexOf("Autumn"));
    const svg = readFileSync(figure, "utf8").trim();
    expect(elementsOf(svg)[0]!.name).toBe("svg");
  });

  it("correct --history starts from the history with a note", async () => {
    const { out } = await run(correct, [autumn!, "--history", folder]);
    expect(flat(out)).toContain("history of primary cell K-17, last seen on Spring (invented)");
    const { out: without } = await run(correct, [autumn!]);
    expect(without).not.toContain("history");
  });

  it.runIf(sqliteHere)(
    `a file that ends in .sqlite holds the same as the folder${skippedWithout}`,
    async () => {
      const file = join(base, "histories.sqlite");
      await run(assess, [spring!, "--history", file, "--add-to-history", "--brief"]);
      await run(history, [file, "--add", autumn!, "--now", "2022-02-01"]);
      expect(await readHistory(file)).toEqual(await readHistory(folder));
      const words = ["--now", "2022-02-01"];
      expect((await run(history, [file, ...words])).out).toBe(
        (await run(history, [folder, ...words])).out,
      );
    },
  );

  it("--json writes the records as lines that can be read again", async () => {
    const { out } = await run(history, [folder, "--json"]);
    const lines = out.trimEnd().split("\n");
    expect(lines.map((line) => JSON.parse(line))).toEqual(await readHistory(folder));
  });

  it("a cruise without serial numbers adds nothing, and the message names the key to set", async () => {
    const { err } = await run(history, [folder, "--add", bare!]);
    expect(err).toContain("name it in cruise.json");
    expect(await readHistory(folder)).toHaveLength(2);
  });

  it("a file that is not a foulcast figure is not replaced", async () => {
    const raw = join(base, "spring", "bottles.csv");
    const before = readFileSync(raw, "utf8");
    const words = [folder, "--serial", "K-17", "--figure", raw];
    await expect(run(history, words)).rejects.toThrow(UsageError);
    expect(readFileSync(raw, "utf8")).toBe(before);
  });

  it("impossible requests are refused: an unknown cell, a figure without a cell, adding without a folder", async () => {
    await expect(run(history, [folder, "--serial", "K-1"])).rejects.toThrow(/known are K-17/);
    await expect(run(history, [folder, "--figure", "x.svg"])).rejects.toThrow(/--serial/);
    await expect(run(assess, [spring!, "--add-to-history"])).rejects.toThrow(/--history/);
  });
});
