import { readdirSync, readFileSync, statSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { demoCruiseFiles } from "../../scripts/demoCruise.js";

const folder = "fixtures/demo-cruise";
const files = demoCruiseFiles();
const onDisk = readdirSync(folder);

describe("the demonstration cruise", () => {
  it("every file of the demonstration cruise calls it invented", () => {
    expect(readFileSync(`${folder}/README.md`, "utf8")).toMatch(/\*\*Invented\.\*\*/);
    expect(JSON.parse(readFileSync(`${folder}/cruise.json`, "utf8")).note).toMatch(/invented/);
  });

  it("the demonstration cruise has the files of its scenario and a README", () => {
    // What the command line keeps beside a cruise is of whoever assessed it.
    const ours = onDisk.filter((name) => name !== ".foulcast");
    expect(ours.toSorted()).toEqual([...files.keys(), "README.md"].toSorted());
  });

  for (const [name, text] of files) {
    it(`the file ${name} of the demonstration cruise equals what its scenario gives, to the last digits`, () => {
      const split = (whole: string) => whole.split(/[\s,]+/);
      const [kept, made] = [split(readFileSync(`${folder}/${name}`, "utf8")), split(text)];
      expect(kept.length).toBe(made.length);
      kept.forEach((word, i) => {
        const other = made[i]!;
        if (word === other) return;
        const digits = word.split(".")[1]?.length ?? 0;
        expect(Math.abs(Number(word) - Number(other))).toBeLessThan(1.5 * 10 ** -digits);
      });
    });
  }

  it("the demonstration cruise takes less than 1.2 MB of the package", () => {
    const bytes = onDisk.reduce((sum, name) => sum + statSync(`${folder}/${name}`).size, 0);
    expect(bytes).toBeLessThan(1.2e6);
  });
});
