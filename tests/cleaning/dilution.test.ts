import fc from "fast-check";
import { expect, test } from "vitest";
import { ceilings } from "../../src/cleaning/chemistry/ceilings.js";
import { dilute } from "../../src/cleaning/chemistry/dilute.js";
import type { HypochloriteStock, Stock } from "../../src/cleaning/chemistry/stock.js";
import { stockStrength } from "../../src/cleaning/chemistry/stockStrength.js";
import { volumeNeeded_ml } from "../../src/cleaning/ladder/volumeNeeded.js";
import { refusal } from "./refusal.js";

const bleach = (percent: number): HypochloriteStock => ({
  kind: "hypochlorite",
  percent,
  meaning: "available chlorine by volume",
});

/** Of a stock that has not aged both bounds are one. */
function strength(stock: Stock): number {
  const { least, most } = stockStrength(stock);
  expect(most).toBe(least);
  return least;
}

test("1 part of 5 % bleach and 99 of water is 500 ppm, of 2.5 % it takes 2 and 98 (WHO 2014, Annex G, Table G.1)", () => {
  const five = dilute(bleach(5), { concentration: 500, volume_ml: 100 }).stages;
  expect(five).toEqual([
    { from: "stock", take_ml: 1, water_ml: 99, makes_ml: 100, concentration: 500 },
  ]);
  const half = dilute(bleach(2.5), { concentration: 500, volume_ml: 100 }).stages;
  expect(half).toEqual([
    { from: "stock", take_ml: 2, water_ml: 98, makes_ml: 100, concentration: 500 },
  ]);
});

test("5 % household bleach has 50 000 ppm of available chlorine (WHO 2014, Annex G, Table G.1)", () => {
  expect(stockStrength(bleach(5))).toEqual({ least: 50_000, most: 50_000 });
});

// "About 5250 ppm (0.53 %)" of a university's bleach sheet after CDC; 12 500 ppm of the University of Colorado's
// decontamination guideline. Both mean 1 part in 10 in all.
test.each([
  [5.25, 5250],
  [12.5, 12_500],
])(
  "1 part in 10 of %f per cent holds the %i ppm of the sheets (university safety sheets)",
  (percent, ppm) => {
    expect(strength(bleach(percent)) / 10).toBeCloseTo(ppm, 9);
  },
);

test.each([
  [100, 2, 0.8],
  [500, 10, 4],
  [1000, 20, 8],
])(
  "a litre of %i ppm takes %f ml of 5 %% and %f ml of 12.5 %% (derived from WHO 2014, Table G.1)",
  (ppm, of5, of12) => {
    for (const [percent, ml] of [
      [5, of5],
      [12.5, of12],
    ] as const) {
      const { stages } = dilute(bleach(percent), { concentration: ppm, volume_ml: 1000 }, [], 0.1);
      expect(stages.map(({ take_ml }) => take_ml)).toEqual([ml]);
    }
  },
);

test("5.25 % NaOCl by mass is 5.00 % available chlorine by mass, and 5.35 % by volume at 1.07 kg/l", () => {
  // 70.906 / 74.442 = 0.9525, from the standard atomic weights of Na, O and Cl.
  const stock = {
    kind: "hypochlorite",
    percent: 5.25,
    meaning: "NaOCl by mass",
    density_kg_l: 1.07,
  } as const;
  expect(strength(stock) / 1.07).toBeCloseTo(50_006, 0);
  expect(strength(stock)).toBeCloseTo(53_507, 0);
  const asChlorine = { ...stock, percent: 5, meaning: "available chlorine by mass" } as const;
  expect(strength(asChlorine)).toBeCloseTo(53_500, 6);
});

test("37 % hydrochloric acid of 1.18 kg/l is about 12 mol/l; 8.3 ml in a litre make 0.1 mol/l and no more", () => {
  // By hand: 1180 g/l x 0.37 / 36.461 g/mol = 11.974 mol/l; 100 / 11.974 = 8.35 ml, to the mark below 8.3.
  const stock = { kind: "acid", acid: "hydrochloric", percent: 37, density_kg_l: 1.18 } as const;
  expect(strength(stock)).toBeCloseTo(11.974, 3);
  const made = dilute(stock, { concentration: 0.1, volume_ml: 1000 });
  expect(made.stages[0]!.take_ml).toBe(8.3);
  expect(made.concentration).toBeCloseTo(0.0994, 4);
  expect(made.steps[0]).toMatch(
    /^Pour 991.7 ml of deionised water into the bottle. Then add 8.3 ml/,
  );
});

test("detergent by mass is converted to volume by the two densities", () => {
  // 10 g in 100 g of 1.01 kg/l are 10.1 g in 100 ml, which at 1.06 kg/l are 9.528 ml.
  const stock = {
    kind: "detergent",
    percent: 10,
    by: "mass",
    density_kg_l: 1.01,
    undilutedDensity_kg_l: 1.06,
  } as const;
  expect(strength(stock)).toBeCloseTo(9.528, 3);
  const neat = { kind: "detergent", percent: 100, by: "volume" } as const;
  expect(dilute(neat, { concentration: 1, volume_ml: 300 }).stages[0]!.take_ml).toBe(3);
});

test("an older stock needs a larger volume, and one that may have lost half is refused", () => {
  const old = { ...bleach(12.5), age_days: 90, kept_C: 20 };
  const wanted = { concentration: 1000, volume_ml: 1000 };
  expect(dilute(old, wanted).stages[0]!.take_ml).toBeGreaterThan(
    dilute(bleach(12.5), wanted).stages[0]!.take_ml,
  );
  expect(refusal(() => dilute({ ...old, age_days: 1500, kept_C: 30 }, wanted)).why).toBe(
    "stock too old",
  );
});

test("0.8 ml of 12.5 % for a litre of 100 ppm is too little to measure: two bottles", () => {
  const made = dilute(bleach(12.5), { concentration: 100, volume_ml: 1000 });
  expect(made.stages).toEqual([
    { from: "stock", take_ml: 1, water_ml: 9, makes_ml: 10, concentration: 12_500 },
    { from: "first bottle", take_ml: 8, water_ml: 992, makes_ml: 1000, concentration: 100 },
  ]);
  expect(made.steps.join(" ")).toMatch(/Label both bottles .* Do not keep the rest of the first/);
});

const stocks: fc.Arbitrary<Stock> = fc.oneof(
  fc.record({
    kind: fc.constant("hypochlorite" as const),
    percent: fc.double({ min: 1, max: 15, noNaN: true }),
    meaning: fc.constant("available chlorine by volume" as const),
    age_days: fc.integer({ min: 0, max: 60 }),
    kept_C: fc.constant(20),
  }),
  fc.record({
    kind: fc.constant("detergent" as const),
    percent: fc.double({ min: 5, max: 100, noNaN: true }),
    by: fc.constant("volume" as const),
  }),
  fc.record({
    kind: fc.constant("acid" as const),
    acid: fc.constantFrom("hydrochloric" as const, "acetic" as const),
    percent: fc.double({ min: 5, max: 37, noNaN: true }),
    density_kg_l: fc.double({ min: 1, max: 1.08, noNaN: true }),
  }),
);

test("stock and volume balance at every stage; hypochlorite is at most 10 % stronger, acid at most 10 % weaker than wanted", () => {
  fc.assert(
    fc.property(
      stocks,
      fc.double({ min: 0.0002, max: 0.9, noNaN: true }),
      fc.integer({ min: 100, max: 5000 }),
      (stock, fraction, volume_ml) => {
        const { least, most } = stockStrength(stock);
        const concentration = Math.min(least, ceilings[stock.kind] / 2) * fraction;
        const made = dilute(stock, { concentration, volume_ml }, [], 0.1);
        let strong = least;
        let available = Number.POSITIVE_INFINITY;
        for (const stage of made.stages) {
          expect(stage.take_ml).toBeGreaterThanOrEqual(0.1);
          expect(stage.water_ml).toBeGreaterThanOrEqual(0.1);
          expect(stage.take_ml).toBeLessThanOrEqual(available);
          expect(stage.take_ml + stage.water_ml).toBeCloseTo(stage.makes_ml, 9);
          const held = (stage.concentration * stage.makes_ml) / (strong * stage.take_ml);
          expect(held).toBeCloseTo(1, 12);
          strong = stage.concentration;
          available = stage.makes_ml;
        }
        expect(made.concentration).toBe(strong);
        const off = made.concentration / concentration - 1;
        expect(Math.abs(off)).toBeLessThan(0.1001);
        if (stock.kind === "hypochlorite") expect(off).toBeGreaterThan(-1e-9);
        if (stock.kind === "acid") expect(off).toBeLessThan(1e-9);
        expect(made.concentrationAtMost / made.concentration).toBeCloseTo(most / least, 12);
        expect(made.concentrationAtMost).toBeLessThan(1.21 * ceilings[stock.kind]);
        expect(`${made.steps} ${made.notes}`).not.toMatch(/NaN|undefined| 0 ml/);
        expect(made.cautions.join(" ")).toMatch(/safety data sheet/);
      },
    ),
    { seed: 3 },
  );
});

test("two fillings of 60 ml need 150 ml: a quarter to spare, rounded up to 50 ml", () => {
  expect(volumeNeeded_ml(60, 2)).toBe(150);
  expect(volumeNeeded_ml(60, 3)).toBe(250);
});
