import fc from "fast-check";
import { expect, test } from "vitest";
import { intensityNames } from "../../src/cast/maintenance.js";
import { cautionsByHazard, generalCautions } from "../../src/cleaning/cautions.js";
import { defaultLadder, rungOf } from "../../src/cleaning/ladder/intensities.js";
import {
  cautionsOf,
  figuresOf,
  type Ladder,
  minutesFor,
  stepsFor,
} from "../../src/cleaning/ladder/intensity.js";
import { ladderSchema } from "../../src/cleaning/ladder/ladderSchema.js";
import { readLadder } from "../../src/cleaning/ladder/readLadder.js";
import { BadInput } from "../../src/read/badInput.js";

test("the default ladder passes the schema for a ship's own", () => {
  expect(ladderSchema.parse(defaultLadder)).toEqual(defaultLadder);
  expect(readLadder(JSON.stringify(defaultLadder))).toEqual(defaultLadder);
  expect(defaultLadder.map(({ name }) => name)).toEqual(intensityNames);
});

test("detergent is 0.1 % in a wash and 1 % in a soak, hypochlorite 1000 ppm (common practice, no source)", () => {
  const strengths = (name: (typeof intensityNames)[number]) =>
    Object.fromEntries(
      rungOf(defaultLadder, name).solutions.map(({ kind, concentration }) => [
        kind,
        concentration?.value,
      ]),
    );
  expect(strengths("wash")).toEqual({ detergent: 0.1 });
  expect(strengths("soak")).toEqual({ detergent: 1 });
  expect(strengths("disinfect")).toEqual({ hypochlorite: 1000, detergent: 1 });
  expect(rungOf(defaultLadder, "disinfect").repeats.value).toBeLessThanOrEqual(5);
});

test("each intensity takes at least as long as the lighter one", () => {
  const watch = defaultLadder.filter(({ hands }) => hands === "watch");
  const minutes = watch.map((rung) => rung.minutes.value);
  expect(minutes.toSorted((a, b) => a - b)).toEqual(minutes);
});

test("every cleaning flushes with deionised water after the last chemical", () => {
  for (const rung of defaultLadder) {
    const steps = stepsFor(rung, { oxygenSensorInLine: false });
    const flush = steps.findIndex(
      (step) => step.startsWith("Flush with") && step.includes("deionised"),
    );
    const chemical = steps.findLastIndex((step) => /^Fill (the cell|it) with/.test(step));
    expect(flush).toBeGreaterThan(chemical);
  }
});

test("every step has its amounts, and every figure its source", () => {
  for (const rung of defaultLadder) {
    for (const step of stepsFor(rung, {})) expect(step).not.toMatch(/[{}]/);
    for (const { source } of figuresOf(rung).values()) expect(source).not.toBe("");
  }
});

test("every intensity has the general cautions and those of its chemicals, each once", () => {
  for (const rung of defaultLadder) {
    const cautions = cautionsOf(rung);
    expect(new Set(cautions).size).toBe(cautions.length);
    expect(cautions).toEqual(expect.arrayContaining([...generalCautions]));
    for (const { kind } of rung.solutions) {
      if (kind === "water") continue;
      expect(cautions).toEqual(expect.arrayContaining([...cautionsByHazard[kind]]));
    }
  }
  expect(cautionsOf(rungOf(defaultLadder, "exchange")).join(" ")).toMatch(/can throw its end cap/);
});

test("an oxygen sensor in line is taken out before a soak; if unknown, the step is a condition", () => {
  const soak = rungOf(defaultLadder, "soak");
  const inLine = stepsFor(soak, { oxygenSensorInLine: true, flow: "pumped" });
  expect(inLine.some((step) => step.startsWith("First take the oxygen sensor out"))).toBe(true);
  expect(minutesFor(soak, { oxygenSensorInLine: true })).toBe(40);
  const none = stepsFor(soak, { oxygenSensorInLine: false, flow: "free-flow" });
  expect(none.join(" ")).not.toMatch(/oxygen/);
  expect(minutesFor(soak, { oxygenSensorInLine: false })).toBe(30);
  expect(stepsFor(soak, {}).join(" ")).toMatch(
    /If an oxygen sensor is in the line: first take the/,
  );
});

test("pumped and free-flow cells are joined to the syringe differently", () => {
  const rinse = rungOf(defaultLadder, "rinse");
  const [pumped, free] = (["pumped", "free-flow"] as const).map(
    (flow) => stepsFor(rinse, { flow })[0]!,
  );
  expect(pumped).toMatch(/intake of the plumbing/);
  expect(free).toMatch(/one end of the cell/);
});

/** The default ladder as text with one rung changed. */
function changed(name: (typeof intensityNames)[number], change: object): string {
  const ladder: Ladder = defaultLadder.map((rung) =>
    rung.name === name ? { ...rung, ...change } : rung,
  );
  return JSON.stringify(ladder);
}

function faultsOf(json: string): BadInput["faults"] {
  try {
    readLadder(json, "ours.json");
  } catch (error) {
    if (error instanceof BadInput) return error.faults;
    throw error;
  }
  return [];
}

test("a ship's own figures replace the defaults", () => {
  const figure = { value: 45, unit: "minutes", source: "our procedure 7" };
  expect(rungOf(readLadder(changed("soak", { minutes: figure })), "soak").minutes).toEqual(figure);
});

test.each([
  ["acid by the watch", "descale", { hands: "watch" }, "4.hands", /trained people/],
  [
    "acid and hypochlorite in one cleaning",
    "descale",
    {
      solutions: [
        ...rungOf(defaultLadder, "descale").solutions,
        ...rungOf(defaultLadder, "disinfect").solutions,
      ],
    },
    "4.solutions",
    /not used in one cleaning/,
  ],
  [
    "hypochlorite of twice what is ever worked out",
    "disinfect",
    {
      solutions: [
        {
          kind: "hypochlorite",
          name: "sodium hypochlorite",
          concentration: { value: 4000, unit: "ppm available chlorine", source: "ours" },
        },
      ],
    },
    "3.solutions",
    /hypochlorite of at most 2000 ppm/,
  ],
  ["a rung with no flush", "soak", { flush: undefined }, "2.flush", /expected object/],
  ["a soak that is not deep", "soak", { deep: false }, "2.deep", /soak and harder are deep/],
  [
    "a figure that the rung does not have",
    "rinse",
    { steps: [{ text: "Wait {soak}." }] },
    "0.steps.0.text",
    /\{soak\} is not a figure of this intensity/,
  ],
  [
    "hypochlorite in per cent, which could mean three things",
    "disinfect",
    {
      solutions: [
        {
          kind: "hypochlorite",
          name: "bleach",
          concentration: { value: 5, unit: "%", source: "ours" },
        },
      ],
    },
    "3.solutions.0",
    /ppm available chlorine/,
  ],
] as const)("%s is refused, with its place", (_, name, change, column, expected) => {
  const fault = faultsOf(changed(name, change)).find((found) => found.column === column);
  expect(fault).toMatchObject({ file: "ours.json", expected: expect.stringMatching(expected) });
});

test("a ladder with an intensity missing or out of order is refused", () => {
  for (const ladder of [defaultLadder.slice(1), defaultLadder.toReversed(), [], {}, null]) {
    expect(faultsOf(JSON.stringify(ladder))).not.toEqual([]);
  }
});

test("text that is no JSON is bad input, not a crash", () => {
  expect(faultsOf("soak: 30 minutes")[0]).toMatchObject({ expected: "JSON" });
});

test("any JSON is a ladder or bad input", () => {
  const rung = fc.constantFrom(...defaultLadder);
  const spoilt = fc
    .tuple(
      fc.nat(5),
      fc.constantFrom(...Object.keys(rungOf(defaultLadder, "soak"))),
      fc.jsonValue(),
    )
    .map(([index, key, value]) =>
      defaultLadder.map((each, i) => (i === index ? { ...each, [key]: value } : each)),
    );
  fc.assert(
    fc.property(fc.oneof(fc.jsonValue(), fc.array(rung), spoilt), (value) => {
      for (const fault of faultsOf(JSON.stringify(value))) expect(fault.found).not.toBe("");
    }),
    { seed: 10, numRuns: 500 },
  );
});
