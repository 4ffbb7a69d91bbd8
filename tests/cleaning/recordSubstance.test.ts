import { expect, test } from "vitest";
import { cleanersOf, strengthIn } from "../../src/cleaning/record/recordSubstance.js";

test.each([
  ["washing-up liquid", ["detergent"]],
  ["alcohol ethoxylate 0.1 %", ["detergent"]],
  ["bleach 1:100", ["hypochlorite"]],
  ["NaOCl", ["hypochlorite"]],
  ["vinegar", ["acid"]],
  ["citric, 2 %", ["acid"]],
  ["0.1 M HCl", ["acid"]],
  ["ammonia", ["ammonia"]],
  ["isopropanol wipe", ["alcohol"]],
  ["H2O2", ["peroxide"]],
  ["bleach and vinegar", ["hypochlorite", "acid"]],
  ["deionised water", []],
  ["water, no bleach", []],
  ["acid-free detergent", ["detergent"]],
  ["soap without ammonia", ["detergent"]],
])("%s is read as %j", (solution, expected) => {
  expect(cleanersOf({ action: "other", solution })).toEqual(expected);
});

test("an entry without a solution has the usual one of its action", () => {
  expect(cleanersOf({ action: "soak" })).toEqual(["detergent"]);
  expect(cleanersOf({ action: "disinfect" })).toEqual(["hypochlorite"]);
  expect(cleanersOf({ action: "descale" })).toEqual(["acid"]);
  expect(cleanersOf({ action: "rinse" })).toEqual([]);
});

// 1 + 99 of 5 % is 500 ppm (WHO 2014, Annex G, Table G.1); of 12.5 % it is 1250 (derived).
test.each([
  ["bleach 1:100", "hypochlorite", [500, 1250]],
  ["1+99", "hypochlorite", [500, 1250]],
  ["1 in 100", "hypochlorite", [500, 1250]],
  ["10 ml in 1 l", "hypochlorite", [500, 1250]],
  ["0.05 %", "hypochlorite", [500, 500]],
  ["500 mg/l", "hypochlorite", [500, 500]],
  ["1:100", "detergent", [1, 1]],
  ["10 ml/l", "detergent", [1, 1]],
  ["0,1 %", "detergent", [0.1, 0.1]],
  ["100 mM", "acid", [0.1, 0.1]],
  ["0.1 N", "acid", [0.1, 0.1]],
] as const)("%s of %s is %j in the ladder's unit", (written, kind, expected) => {
  const [least, most] = strengthIn(written, kind)!;
  expect(least).toBeCloseTo(expected[0], 9);
  expect(most).toBeCloseTo(expected[1], 9);
});

test.each([
  ["two drops", "detergent"],
  ["at 12:30", "hypochlorite"],
  ["1:10", "acid"],
  ["5 %", "acid"],
  ["", "hypochlorite"],
] as const)("%s of %s is not understood", (written, kind) => {
  expect(strengthIn(written, kind)).toBeUndefined();
});
