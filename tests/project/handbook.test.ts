import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const docs = fileURLToPath(new URL("../../docs", import.meta.url));
const contents = readFileSync(`${docs}/README.md`, "utf8");
const [handbook, reference] = contents.split("\n## Reference");
const linked = (text: string) => [...text.matchAll(/\]\(([^)]+)\)/g)].map(([, file]) => file!);
/** Words of text and tables; code is not read by the minute. */
const wordsOf = (file: string) =>
  readFileSync(`${docs}/${file}`, "utf8")
    .replaceAll(/^```[\s\S]*?^```$/gm, "")
    .split(/\s+/).length;

describe("the handbook", () => {
  it("the contents of the handbook list every page of docs once", () => {
    const pages = readdirSync(docs).filter((file) => file !== "README.md");
    expect(linked(contents).sort()).toEqual(pages.sort());
    expect(linked(reference!)).toContain("references.md");
  });

  it("the handbook has at most 12,000 words, an hour of reading at 200 words a minute (judgement)", () => {
    const words = linked(handbook!).reduce((sum, chapter) => sum + wordsOf(chapter), 0);
    expect(words).toBeGreaterThan(5000);
    expect(words).toBeLessThan(12000);
  });
});
