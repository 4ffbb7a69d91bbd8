import { expect, test } from "vitest";
import { ceilings } from "../../src/cleaning/chemistry/ceilings.js";
import { dilute } from "../../src/cleaning/chemistry/dilute.js";
import type { HypochloriteStock, Stock } from "../../src/cleaning/chemistry/stock.js";
import { defaultLadder } from "../../src/cleaning/ladder/intensities.js";
import { refusal } from "./refusal.js";

const bleach = (percent: number): HypochloriteStock => ({
  kind: "hypochlorite",
  percent,
  meaning: "available chlorine by volume",
});

test("hypochlorite into a bottle that held acid, and water into a bottle with acid, are refused", () => {
  const wanted = { concentration: 500, volume_ml: 500 };
  expect(refusal(() => dilute(bleach(5), wanted, ["water", "acid"])).why).toBe("dangerous mixture");
  const acid = { kind: "acid", acid: "hydrochloric", percent: 37, density_kg_l: 1.18 } as const;
  const weak = { concentration: 0.1, volume_ml: 500 };
  expect(refusal(() => dilute(acid, weak, ["acid"])).why).toBe("wrong order");
  expect(() => dilute(acid, weak, ["water"])).not.toThrow();
  expect(refusal(() => dilute(acid, weak, ["hypochlorite", "acid", "water"])).why).toBe(
    "already mixed",
  );
});

test("a stock weaker than the required solution, and one far too strong for the bottle, are refused", () => {
  const weak = { kind: "detergent", percent: 2, by: "volume" } as const;
  expect(refusal(() => dilute(weak, { concentration: 3, volume_ml: 100 })).why).toBe(
    "stock too weak",
  );
  expect(refusal(() => dilute(bleach(12.5), { concentration: 0.5, volume_ml: 100 })).why).toBe(
    "too little",
  );
});

test("amounts that are not above zero throw a RangeError", () => {
  for (const volume_ml of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(() => dilute(bleach(5), { concentration: 500, volume_ml })).toThrow(RangeError);
  }
});

test("nothing stronger than twice the ladder's hypochlorite, 0.5 mol/l of acid or 5 % of detergent is made (judgement)", () => {
  const acid = { kind: "acid", acid: "hydrochloric", percent: 37, density_kg_l: 1.18 } as const;
  const neat = { kind: "detergent", percent: 100, by: "volume" } as const;
  for (const [stock, most] of [
    [bleach(5), 2000],
    [acid, 0.5],
    [neat, 5],
  ] as const) {
    expect(() => dilute(stock, { concentration: most, volume_ml: 500 })).not.toThrow();
    const over = refusal(() => dilute(stock, { concentration: 1.01 * most, volume_ml: 500 }));
    expect(over.why).toBe("too strong");
    expect(over.message).toContain(String(most));
  }
  const used = (kind: Stock["kind"]) =>
    defaultLadder
      .flatMap(({ solutions }) => solutions)
      .flatMap((solution) => (solution.kind === kind ? [solution.concentration!.value] : []));
  expect(ceilings.hypochlorite / Math.max(...used("hypochlorite"))).toBe(2);
  for (const kind of ["detergent", "acid"] as const) {
    expect(Math.max(...used(kind))).toBeLessThan(ceilings[kind]);
  }
});

test("a stock of the required strength is used undiluted: no step adds 0 ml of water", () => {
  const made = { kind: "detergent", percent: 1, by: "volume" } as const;
  const same = refusal(() => dilute(made, { concentration: 1, volume_ml: 500 }));
  expect(same.why).toBe("nothing to dilute");
  expect(same.message).toMatch(/no water would be added/);
  expect(refusal(() => dilute(made, { concentration: 0.999, volume_ml: 500 })).why).toBe(
    "nothing to dilute",
  );
});

const byMass = { kind: "hypochlorite", percent: 12.5, meaning: "NaOCl by mass" } as const;
test.each([
  ["a density of 1070 for 1.070", { ...byMass, density_kg_l: 1070 }, /density.*1070/],
  ["no density", { ...byMass, density_kg_l: Number.NaN }, /density.*NaN/],
  ["a missing density", byMass as unknown as Stock, /density.*missing/],
  ["an age of -300 days", { ...bleach(5), age_days: -300 }, /age.*-300/],
  ["an age that is no number", { ...bleach(5), age_days: Number.NaN }, /age.*NaN/],
  ["5 % written as 0.05", bleach(0.05), /strength.*0.05.*not 0.05/],
  ["50 % hypochlorite", bleach(50), /strength.*50/],
  ["a missing strength", { ...bleach(5), percent: undefined } as unknown as Stock, /missing/],
  ["a store at 293 K", { ...bleach(5), age_days: 30, kept_C: 293 }, /temperature.*293/],
  [
    "acid of 90 %",
    { kind: "acid", acid: "hydrochloric", percent: 90, density_kg_l: 1.18 },
    /strength.*90/,
  ],
  [
    "detergent of 101 kg/l",
    { kind: "detergent", percent: 100, by: "mass", density_kg_l: 101 },
    /density.*101/,
  ],
] as const)("%s is refused, with the plausible range", (_, stock, message) => {
  const found = refusal(() => dilute(stock as Stock, { concentration: 0.1, volume_ml: 500 }));
  expect(found.why).toBe("implausible stock");
  expect(found.message).toMatch(message);
});

test("an unknown kind of stock or meaning of per cent throws a RangeError", () => {
  const odd = { ...bleach(5), meaning: "by weight" } as unknown as Stock;
  const unknown = { kind: "acid", acid: "nitric", percent: 5, density_kg_l: 1 } as unknown as Stock;
  for (const stock of [odd, unknown]) {
    expect(() => dilute(stock, { concentration: 0.1, volume_ml: 100 })).toThrow(RangeError);
  }
});
