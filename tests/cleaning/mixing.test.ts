import { expect, test } from "vitest";
import { checkMixing, type Substance, substances } from "../../src/cleaning/chemistry/mixing.js";
import { refusal } from "./refusal.js";

// What the sources name, each with a word of what it gives.
const published: readonly (readonly [Substance, Substance, RegExp, string])[] = [
  ["hypochlorite", "acid", /chlorine, a poisonous gas/, "CDC 1991, MMWR 40, 619-621"],
  ["hypochlorite", "ammonia", /chloramines/, "Washington State Department of Health"],
  [
    "hypochlorite",
    "other cleaner",
    /chlorine or chloramines/,
    "CDC 1991: cleaners with acid in them",
  ],
  ["hypochlorite", "alcohol", /vapours/, "from memory"],
  ["hypochlorite", "peroxide", /oxygen and heat/, "from memory"],
];

test.each(published)(
  "%s and %s are refused in both orders, also with water between, and the product is named",
  (a, b, gives) => {
    for (const [held, added] of [
      [[a], b],
      [[b], a],
      [["water", a], b],
      [[b, "water"], a],
    ] as const) {
      const { why, message } = refusal(() => checkMixing(held, added));
      expect(why).toBe("dangerous mixture");
      expect(message).toMatch(gives);
    }
  },
);

test.each(published)(
  "%s and %s that are already mixed are a danger, for anything added",
  (a, b, gives) => {
    for (const held of [
      [a, b],
      [b, a],
      ["water", a, "water", b],
    ] as const) {
      for (const added of substances) {
        const { why, message } = refusal(() => checkMixing(held, added));
        expect(why).toBe("already mixed");
        expect(message).toMatch(gives);
        expect(message).toMatch(
          /Add nothing, not even water.*Leave at once.*upwind.*do not go back/,
        );
      }
    }
  },
);

/** Of what is held and added, the cleaners: two of them never meet (common practice, no source). */
const cleaners = (all: readonly Substance[]) => new Set(all.filter((one) => one !== "water"));

test("every mixture of two: two cleaners never, and water with each, but not onto acid", () => {
  for (const a of substances) {
    for (const b of substances) {
      if (a === "acid" && b === "water") {
        expect(refusal(() => checkMixing([a], b)).why).toBe("wrong order");
      } else if (cleaners([a, b]).size < 2) {
        expect(() => checkMixing([a], b)).not.toThrow();
      } else {
        expect(refusal(() => checkMixing([a], b)).why).toBe("dangerous mixture");
      }
    }
  }
});

test("for every mixture of three in every order, the content of the vessel is checked before the addition", () => {
  for (const a of substances) {
    for (const b of substances) {
      for (const c of substances) {
        const call = () => checkMixing([a, b], c);
        if (cleaners([a, b]).size === 2) expect(refusal(call).why).toBe("already mixed");
        else if (cleaners([a, b, c]).size === 2) {
          expect(refusal(call).why).toBe("dangerous mixture");
        } else if (c === "water" && a === "acid") expect(refusal(call).why).toBe("wrong order");
        else expect(call).not.toThrow();
      }
    }
  }
});

test("of three that have met the most dangerous pair is named", () => {
  for (const held of [
    ["detergent", "hypochlorite", "acid"],
    ["acid", "detergent", "hypochlorite"],
  ] as const) {
    expect(refusal(() => checkMixing(held, "water")).message).toMatch(/chlorine, a poisonous gas/);
  }
});

test("two mixed cleaners without a known gas are discarded, and the room is not evacuated", () => {
  const { message } = refusal(() => checkMixing(["detergent", "acid"], "water"));
  expect(message).toMatch(/Add nothing and do not use it/);
  expect(message).not.toMatch(/Leave at once/);
});

test("acid is poured into water, never water into acid", () => {
  expect(refusal(() => checkMixing(["acid"], "water")).why).toBe("wrong order");
  expect(() => checkMixing(["water"], "acid")).not.toThrow();
});
