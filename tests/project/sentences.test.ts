// Limits on the sentences of the handbook, which are judgement, and the measure of reading ease. The sentences that the program
// prints have theirs in sentencesInSources.slow.test.ts.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import {
  readingEase,
  sentencesOf,
  syllablesOf,
  wordsOf,
} from "../../scripts/sentences/readingEase.js";

const root = fileURLToPath(new URL("../..", import.meta.url)).replace(/\/$/, "");
const median = (values: readonly number[]) =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;

describe("the handbook", () => {
  const docs = `${root}/docs`;
  const contents = readFileSync(`${docs}/README.md`, "utf8").split("\n## Reference")[0]!;
  const chapters = readdirSync(docs).filter((file) => contents.includes(`](${file})`));

  it.each(chapters)(
    "half of the sentences of docs/%s have 14 words or fewer, and none has over 30",
    (file) => {
      const prose = readFileSync(`${docs}/${file}`, "utf8")
        .replaceAll(/^```[\s\S]*?^```$/gm, "")
        .split(/\n\s*\n|\n(?=[-|]|\d+\. )/)
        .filter((part) => !/^(?:#|\|| {4})/.test(part.replace(/^\n+/, "")));
      const words = prose
        .flatMap(sentencesOf)
        .map((sentence) => wordsOf(sentence).length)
        .filter((count) => count > 3);
      expect(words.length).toBeGreaterThan(20);
      expect(median(words)).toBeLessThanOrEqual(14);
      expect(Math.max(...words)).toBeLessThanOrEqual(30);
    },
  );
});

describe("the measure of reading ease", () => {
  // Counted by hand from a dictionary's divisions, which a rule of vowels meets in common words.
  it.each([
    ["cell", 1],
    ["water", 2],
    ["rinse", 1],
    ["salinity", 4],
    ["bottle", 2],
    ["cleaned", 1],
    ["needed", 2],
    ["ppm", 1],
    ["0.002", 1],
  ])("the word %s has %i syllables by the rule of vowels", (word, count) => {
    expect(syllablesOf(word)).toBe(count);
  });

  it("the reading ease of three words of one syllable is 206.835 - 1.015 x 3 - 84.6 x 1 [Flesch1948]", () => {
    expect(readingEase(["Rinse the cell."])).toMatchObject({ words: 3, longWords: 0 });
    expect(readingEase(["Rinse the cell."]).ease).toBeCloseTo(206.835 - 3.045 - 84.6, 9);
  });

  it("a text is split into sentences at their ends and not within numbers", () => {
    expect(sentencesOf("It reads 0.2 too low. Rinse it! Why?")).toEqual([
      "It reads 0.2 too low.",
      "Rinse it!",
      "Why?",
    ]);
  });
});
