import { expect, test } from "vitest";
import {
  cautionsByHazard,
  cautionsFor,
  generalCautions,
  type Hazard,
  hazards,
} from "../../src/cleaning/cautions.js";
import { dilute } from "../../src/cleaning/chemistry/dilute.js";
import type { Stock } from "../../src/cleaning/chemistry/stock.js";
import { defaultLadder } from "../../src/cleaning/ladder/intensities.js";
import { cautionsOf } from "../../src/cleaning/ladder/intensity.js";

test.each([
  "ventilation",
  "gloves",
  "sealed goggles",
  "Never mix",
  "safety data sheet",
  "label",
  "maker's instructions",
  "local rules",
  "trained",
  "leaking battery pack",
  "under pressure",
])("the general cautions name: %s", (word) => {
  expect(generalCautions.join(" ")).toContain(word);
});

test("deference to label, data sheet, maker, local rules and trained people comes first", () => {
  for (const hazard of hazards)
    expect(cautionsFor([hazard])[0]).toMatch(/^This is advice\. The label/);
});

// Each with where it is from.
const wanted: readonly (readonly [Hazard, RegExp, string])[] = [
  ["hypochlorite", /chlorine with any acid, and chloramines with ammonia/, "CDC 1991; WA DoH"],
  [
    "hypochlorite",
    /in the eyes: rinse with water for 15 to 20 minutes.*medical advice/,
    "safety sheets, common practice",
  ],
  [
    "hypochlorite",
    /Smell of chlorine: leave at once, go upwind.*do not go back.*call/,
    "common practice, no source",
  ],
  ["hypochlorite", /corrodes metal/, "Univ. Colorado decontamination guideline"],
  ["hypochlorite", /waste.*never with acid.*thiosulfate or ascorbate/, "from memory"],
  ["acid", /Pour acid into water.*Never pour water into acid/, "common practice, no source"],
  ["acid", /face shield.*apron.*gloves/, "general acid-handling guides"],
  ["acid", /15 to 20 minutes.*lenses out after the first 5/, "NLM WISER, hydrogen chloride"],
  ["acid", /waste.*never with hypochlorite.*bicarbonate.*open bottle/, "from memory"],
  ["detergent", /irritates the eyes/, "common practice, no source"],
  ["detergent", /phenol-free/, "REACH Annex XIV, entry 42"],
  ["detergent", /waste.*own labelled bottle/, "common practice, no source"],
  [
    "acid",
    /trained people only.*safety data sheet, the label and the maker's instructions/,
    "common practice, no source",
  ],
  ["acid", /Never mix acid with bleach/, "CDC 1991"],
  ["acid", /After acid, rinse with plenty of fresh water/, "common practice, no source"],
  [
    "pressure-housing",
    /may be under pressure.*Nobody stands in front of the end cap.*Vent.*as the maker says/,
    "common practice, no source",
  ],
  ["pressure-housing", /Do not open.*flooded or leaked.*trained/, "common practice, no source"],
  [
    "battery",
    /label and the safety data sheet.*maker's instructions.*Lithium.*Alkaline/,
    "common practice, no source",
  ],
  [
    "battery",
    /may be under pressure.*Only trained people open it.*vent.*as the maker says.*Nobody stands/,
    "common practice, no source",
  ],
  ["battery", /Do not touch a pack that is hot, swollen or leaking/, "common practice, no source"],
];
test.each(wanted)("%s: %s", (hazard, words) => {
  expect(cautionsFor([hazard]).join(" ")).toMatch(words);
});

test("for any combination of hazards each caution is shown exactly once", () => {
  for (let chosen = 0; chosen < 2 ** hazards.length; chosen++) {
    const some = hazards.filter((_, i) => chosen & (1 << i));
    const shown = cautionsFor([...some, ...some]);
    expect(new Set(shown).size).toBe(shown.length);
    const all = [generalCautions, ...some.map((hazard) => cautionsByHazard[hazard])].flat();
    expect([...shown].sort()).toEqual(all.sort());
  }
});

test("what to do before the work comes before what to do if it goes wrong, and waste comes last", () => {
  const shown = cautionsFor(["acid", "hypochlorite"]);
  const at = (words: RegExp) => shown.findIndex((caution) => words.test(caution));
  const order = [/^Never mix/, /^Hypochlorite burns/, /^Smell of chlorine/, /^Acid waste/].map(at);
  expect(order).toEqual(order.toSorted((a, b) => a - b));
  expect(order).not.toContain(-1);
});

test("no sentence of a caution has more than 25 words", () => {
  for (const sentence of cautionsFor(hazards).flatMap((caution) => caution.split(/(?<=\.) /))) {
    expect(sentence.split(" ").length, sentence).toBeLessThanOrEqual(25);
  }
});

const stocks: readonly Stock[] = [
  { kind: "hypochlorite", percent: 5, meaning: "available chlorine by volume" },
  { kind: "detergent", percent: 100, by: "volume" },
  { kind: "acid", acid: "hydrochloric", percent: 37, density_kg_l: 1.18 },
];
test.each(stocks)(
  "a solution of $kind carries every caution of it, and so does every rung that uses it",
  (stock) => {
    const own = cautionsByHazard[stock.kind];
    const made = dilute(stock, { concentration: 0.5, volume_ml: 500 }, [], 0.1);
    expect(made.cautions).toEqual(expect.arrayContaining([...own]));
    const rungs = defaultLadder.filter(({ solutions }) =>
      solutions.some(({ kind }) => kind === stock.kind),
    );
    expect(rungs.length).toBeGreaterThan(0);
    for (const rung of rungs) expect(cautionsOf(rung)).toEqual(expect.arrayContaining([...own]));
  },
);
