// Limits on the sentences that stand in the sources, as `npm run sentences` measures them. They are what was reached; the aim of
// 20 words is common practice in plain English, the reading ease is judgement.
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { sentencesInSources } from "../../scripts/sentences/inSources.js";
import { readingEase, wordsOf } from "../../scripts/sentences/readingEase.js";
import { median } from "../../src/statistics/robustCentre.js";

const root = fileURLToPath(new URL("../..", import.meta.url)).replace(/\/$/, "");

describe("the sentences that stand in the sources", () => {
  const sentences = sentencesInSources(root);

  it("the search finds sentences of errors, notes, steps and cautions in the sources", () => {
    const texts = sentences.map(({ text }) => text);
    expect(sentences.length).toBeGreaterThan(800);
    expect(texts).toContain("Never pour water into acid: it boils and spatters.");
    expect(texts).toContain("Write the scans in the order of time.");
  });

  it("the sentences in the sources have at most 20 words", () => {
    const long = sentences.filter(({ text }) => wordsOf(text).length > 20);
    expect(long.map(({ file, line, text }) => `${file}:${line} ${text}`)).toEqual([]);
  });

  it("the sentences in the sources have a median reading ease of at least 70, fairly easy [Flesch1948]", () => {
    expect(median(sentences.map(({ text }) => readingEase([text]).ease))).toBeGreaterThan(70);
  });
});
