import fc from "fast-check";
import { expect, test } from "vitest";
import { dilute } from "../../src/cleaning/chemistry/dilution.js";
import { DilutionRefused } from "../../src/cleaning/chemistry/dilutionRefused.js";
import { strengthAfter } from "../../src/cleaning/chemistry/hypochloriteAge.js";
import { checkMixing, type Substance, substances } from "../../src/cleaning/chemistry/mixing.js";
import {
  type HypochloriteStock,
  type Stock,
  stockStrength,
} from "../../src/cleaning/chemistry/stock.js";
import { volumeNeeded_ml } from "../../src/cleaning/ladder/volumeNeeded.js";

const bleach = (percent: number): HypochloriteStock => ({
  kind: "hypochlorite",
  percent,
  meaning: "available chlorine by volume",
});

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

test("5 % household bleach holds 50 000 ppm of available chlorine (WHO 2014, Annex G, Table G.1)", () => {
  expect(stockStrength(bleach(5))).toBe(50_000);
});

// "About 5250 ppm (0.53 %)" of a university's bleach sheet after CDC; 12 500 ppm of the University of Colorado's
// decontamination guideline. Both mean 1 part in 10 in all.
test.each([
  [5.25, 5250],
  [12.5, 12_500],
])(
  "1 part in 10 of %f per cent is the strength the sheets say, in ppm %i (university safety sheets)",
  (percent, ppm) => {
    const [only] = dilute(bleach(percent), { concentration: ppm, volume_ml: 1000 }).stages;
    expect(only).toMatchObject({ take_ml: 100, water_ml: 900 });
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
  expect(stockStrength(stock) / 1.07).toBeCloseTo(50_006, 0);
  expect(stockStrength(stock)).toBeCloseTo(53_507, 0);
  const asChlorine = { ...stock, percent: 5, meaning: "available chlorine by mass" } as const;
  expect(stockStrength(asChlorine)).toBeCloseTo(53_500, 6);
});

test("37 % hydrochloric acid of 1.18 kg/l is about 12 mol/l; 8.3 ml in a litre make 0.1 mol/l", () => {
  // By hand: 1180 g/l x 0.37 / 36.461 g/mol = 11.974 mol/l; 100 / 11.974 = 8.35 ml, to the marks 8.4.
  const stock = { kind: "acid", acid: "hydrochloric", percent: 37, density_kg_l: 1.18 } as const;
  expect(stockStrength(stock)).toBeCloseTo(11.974, 3);
  const made = dilute(stock, { concentration: 0.1, volume_ml: 1000 });
  expect(made.stages[0]!.take_ml).toBe(8.4);
  expect(made.concentration).toBeCloseTo(0.1006, 4);
  expect(made.steps[0]).toMatch(
    /^Pour 991.6 ml of deionised water into the bottle, then add 8.4 ml/,
  );
});

test("detergent by mass is reckoned to volume by the two densities", () => {
  // 10 g in 100 g of 1.01 kg/l are 10.1 g in 100 ml, which at 1.06 kg/l are 9.528 ml.
  const stock = {
    kind: "detergent",
    percent: 10,
    by: "mass",
    density_kg_l: 1.01,
    undilutedDensity_kg_l: 1.06,
  } as const;
  expect(stockStrength(stock)).toBeCloseTo(9.528, 3);
  const neat = { kind: "detergent", percent: 100, by: "volume" } as const;
  expect(dilute(neat, { concentration: 1, volume_ml: 300 }).stages[0]!.take_ml).toBe(3);
});

test("12.5 % hypochlorite at 21 degree C keeps 11.1, 9.3 and 7.8 % after 1, 3 and 6 months, within a twentieth", () => {
  // An amateur's table from published rate constants; indicative.
  for (const [months, percent] of [
    [1, 11.1],
    [3, 9.3],
    [6, 7.8],
  ] as const) {
    const kept = strengthAfter(12.5, months * 30.4, 21);
    expect(Math.abs(kept / percent - 1)).toBeLessThan(0.05);
  }
});

test("weaker hypochlorite keeps longer, warmth shortens it, and none is gained by keeping", () => {
  expect(strengthAfter(2.5, 90, 20) / 2.5).toBeGreaterThan(strengthAfter(12.5, 90, 20) / 12.5);
  expect(strengthAfter(5, 90, 30)).toBeLessThan(strengthAfter(5, 90, 20));
  // Second order: twice the strength loses at first four times as fast ("five times", says a manufacturer's note).
  const loss = (percent: number) => percent - strengthAfter(percent, 0.01, 20);
  expect(loss(20) / loss(10)).toBeCloseTo(4, 2);
});

test("an old stock takes more of it, and one that lost half is not reckoned with", () => {
  const old = { ...bleach(12.5), age_days: 90, kept_C: 20 };
  const wanted = { concentration: 1000, volume_ml: 1000 };
  expect(dilute(old, wanted).stages[0]!.take_ml).toBeGreaterThan(
    dilute(bleach(12.5), wanted).stages[0]!.take_ml,
  );
  expect(() => dilute({ ...old, age_days: 1500, kept_C: 30 }, wanted)).toThrow(/more than half/);
});

test("0.8 ml of 12.5 % for a litre of 100 ppm is too little to measure: two bottles", () => {
  const made = dilute(bleach(12.5), { concentration: 100, volume_ml: 1000 });
  expect(made.stages).toEqual([
    { from: "stock", take_ml: 1, water_ml: 9, makes_ml: 10, concentration: 12_500 },
    { from: "first bottle", take_ml: 8, water_ml: 992, makes_ml: 1000, concentration: 100 },
  ]);
  expect(made.steps).toHaveLength(4);
});

const stocks: fc.Arbitrary<Stock> = fc.oneof(
  fc.record({
    kind: fc.constant("hypochlorite" as const),
    percent: fc.double({ min: 1, max: 15, noNaN: true }),
    meaning: fc.constant("available chlorine by volume" as const),
    age_days: fc.integer({ min: 0, max: 60 }),
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
    density_kg_l: fc.double({ min: 1, max: 1.2, noNaN: true }),
  }),
);

test("what goes in comes out: stock and volume balance at every stage, and the strength is within a twentieth of that wanted", () => {
  fc.assert(
    fc.property(
      stocks,
      fc.double({ min: 0.0002, max: 0.9, noNaN: true }),
      fc.integer({ min: 100, max: 5000 }),
      (stock, fraction, volume_ml) => {
        const concentration = stockStrength(stock) * fraction;
        const made = dilute(stock, { concentration, volume_ml });
        let strength = made.stockStrength;
        let available = Number.POSITIVE_INFINITY;
        for (const stage of made.stages) {
          expect(stage.take_ml).toBeGreaterThanOrEqual(1);
          expect(stage.take_ml).toBeLessThanOrEqual(available);
          expect(stage.take_ml + stage.water_ml).toBeCloseTo(stage.makes_ml, 9);
          expect((stage.concentration * stage.makes_ml) / (strength * stage.take_ml)).toBeCloseTo(
            1,
            12,
          );
          strength = stage.concentration;
          available = stage.makes_ml;
        }
        expect(made.concentration).toBe(strength);
        expect(Math.abs(made.concentration / concentration - 1)).toBeLessThan(0.051);
        expect(made.cautions.join(" ")).toMatch(/safety data sheet/);
      },
    ),
    { seed: 3 },
  );
});

function refusal(call: () => unknown): DilutionRefused {
  try {
    call();
  } catch (error) {
    if (error instanceof DilutionRefused) return error;
  }
  throw new Error("not refused");
}

test("hypochlorite and acid are never poured together, in either order or through water: chlorine", () => {
  for (const held of [["acid"], ["water", "acid"], ["detergent", "acid"]] as Substance[][]) {
    expect(refusal(() => checkMixing(held, "hypochlorite")).why).toBe("dangerous mixture");
  }
  const other = refusal(() => checkMixing(["water", "hypochlorite"], "acid"));
  expect(other.message).toMatch(/chlorine, a poisonous gas/);
  const wanted = { concentration: 500, volume_ml: 500 };
  expect(refusal(() => dilute(bleach(5), wanted, ["water", "acid"])).why).toBe("dangerous mixture");
});

test("hypochlorite and ammonia are refused: chloramines", () => {
  expect(refusal(() => checkMixing(["ammonia"], "hypochlorite")).message).toMatch(/chloramines/);
});

test("any two cleaners are refused, and water goes with all of them", () => {
  for (const a of substances) {
    for (const b of substances) {
      const safe = a === b || b === "water" || a === "water";
      if (a === "acid" && b === "water") continue;
      if (safe) expect(() => checkMixing([a], b)).not.toThrow();
      else expect(refusal(() => checkMixing([a], b)).why).toBe("dangerous mixture");
    }
  }
});

test("water is not poured into acid; acid is poured into water", () => {
  expect(refusal(() => checkMixing(["acid"], "water")).why).toBe("wrong order");
  expect(() => checkMixing(["water"], "acid")).not.toThrow();
  const stock = { kind: "acid", acid: "hydrochloric", percent: 37, density_kg_l: 1.18 } as const;
  const wanted = { concentration: 0.1, volume_ml: 500 };
  expect(refusal(() => dilute(stock, wanted, ["acid"])).why).toBe("wrong order");
  expect(() => dilute(stock, wanted, ["water"])).not.toThrow();
});

test("a stock weaker than what is wanted, and one far too strong for the bottle, are refused", () => {
  expect(refusal(() => dilute(bleach(0.05), { concentration: 1000, volume_ml: 100 })).why).toBe(
    "stock too weak",
  );
  expect(refusal(() => dilute(bleach(12.5), { concentration: 0.5, volume_ml: 100 })).why).toBe(
    "too little",
  );
});

test("amounts that are none are misuse", () => {
  for (const volume_ml of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
    expect(() => dilute(bleach(5), { concentration: 500, volume_ml })).toThrow(RangeError);
  }
});

test("two fillings of 60 ml want 150 ml, to the next bottle mark above with a quarter to spare", () => {
  expect(volumeNeeded_ml(60, 2)).toBe(150);
  expect(volumeNeeded_ml(60, 3)).toBe(250);
});
