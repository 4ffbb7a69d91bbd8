// Sentences as they are printed, with their numbers, lists and names, are longer than their parts in the sources.
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { printedAbout } from "../../scripts/sentences/printed.js";
import { wordsOf } from "../../scripts/sentences/readingEase.js";
import { readCruise } from "../../src/node/index.js";
import { randomScenario, simulateCruise } from "../../src/simulate/index.js";

const demo = fileURLToPath(new URL("../../fixtures/demo-cruise", import.meta.url));

describe("what is printed about a cruise", () => {
  it.each([
    ["the demonstration cruise", async () => readCruise(demo)],
    ["a simulated cruise", async () => simulateCruise(randomScenario(2, "all")).cruise],
  ])("no sentence printed about %s has over 30 words", async (_, cruiseOf) => {
    const sentences = [...printedAbout(await cruiseOf())];
    expect(sentences.length).toBeGreaterThan(100);
    expect(sentences.filter((sentence) => wordsOf(sentence).length > 30)).toEqual([]);
  });
});
