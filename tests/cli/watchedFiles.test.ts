import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { beforeEach, describe, expect, it } from "vitest";
import { filesSeen } from "../../src/cli/watchedFiles.js";
import { temporaryFolder } from "../temporaryFolder.js";

const base = temporaryFolder("watched");
const cruise = join(base, "cruise");
const put = (...path: readonly string[]) => writeFileSync(join(base, ...path), "some text");

beforeEach(() => {
  rmSync(cruise, { recursive: true, force: true });
  mkdirSync(join(cruise, "more"), { recursive: true });
  mkdirSync(join(cruise, "histories"));
  put("cruise", "001.csv");
});

/** Whether what is done in between is seen as news. */
async function isNews(words: readonly string[], between: () => void): Promise<boolean> {
  const before = await filesSeen([cruise, ...words]);
  between();
  return (await filesSeen([cruise, ...words])) !== before;
}

describe("the files that are watched", () => {
  it("the files of the cruise, its subfolders and the options are watched", async () => {
    expect(await isNews([], () => put("cruise", "002.csv"))).toBe(true);
    expect(await isNews([], () => put("cruise", "more", "003.csv"))).toBe(true);
    expect(await isNews(["--bottles", join(base, "b.csv")], () => put("b.csv"))).toBe(true);
    expect(await isNews([], () => put("elsewhere.csv"))).toBe(false);
  });

  it("files that the assessment writes, and hidden files, are not watched", async () => {
    const json = join(cruise, "verdict.json");
    expect(await isNews(["--json", json], () => put("cruise", "verdict.json"))).toBe(false);
    expect(await isNews([`--report=${json}`], () => put("cruise", "verdict.json"))).toBe(false);
    expect(await isNews([], () => put("cruise", ".verdict.json.part"))).toBe(false);
  });

  it("a history that is only read is watched, and one that is added to is not", async () => {
    for (const [place, file] of [
      ["histories", "histories/cell.jsonl"],
      ["fleet.sqlite", "fleet.sqlite"],
      ["fleet.sqlite", "fleet.sqlite-journal"],
    ] as const) {
      const history = ["--history", join(cruise, place)];
      expect(await isNews(history, () => put("cruise", file))).toBe(true);
      rmSync(join(cruise, file));
      const added = [...history, "--add-to-history"];
      expect(await isNews(added, () => put("cruise", file))).toBe(false);
    }
  });
});
