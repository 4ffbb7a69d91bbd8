import fc from "fast-check";
import { expect, test } from "vitest";
import { dilute } from "../../src/cleaning/chemistry/dilute.js";
import { strengthAfter } from "../../src/cleaning/chemistry/hypochloriteAge.js";
import type { HypochloriteStock } from "../../src/cleaning/chemistry/stock.js";
import { refusal } from "./refusal.js";

// A table reckoned by an amateur from published rate constants: indicative. Per cent left of 12.5.
const table = [
  [21, 1, 11.1],
  [21, 3, 9.3],
  [21, 6, 7.8],
  [38, 1, 6.7],
  [38, 3, 4.3],
  [38, 6, 3.2],
] as const;

test.each(table)(
  "at %i degree C after %i months the published %f %% of 12.5 %% lies between the two bounds",
  (kept_C, months, percent) => {
    const { least, most } = strengthAfter(12.5, months * 30.4, kept_C);
    expect(least).toBeLessThan(percent);
    expect(most).toBeGreaterThan(percent);
  },
);

test("a 1:5 dilution of 5 % kept 97 to 100 % for 30 days in closed brown bottles at 20 degree C [RutalaEtAl1998, abstract]", () => {
  const { least, most } = strengthAfter(1, 30, 20);
  expect(least).toBeLessThanOrEqual(0.97);
  expect(most).toBeGreaterThan(0.99);
  expect(most).toBeLessThanOrEqual(1);
});

test("20 % loses four to five times as fast as 10 %: second order has 4, a manufacturer's technical note 5", () => {
  const rate = (percent: number, bound: "least" | "most") =>
    (percent - strengthAfter(percent, 0.001, 21)[bound]) / 0.001;
  const bottle = (percent: number) => percent * (0.03 / 30);
  const ratio = (rate(20, "least") - bottle(20)) / (rate(10, "least") - bottle(10));
  expect(ratio).toBeGreaterThan(4);
  expect(ratio).toBeLessThan(5);
  expect(rate(20, "most") / rate(10, "most")).toBeGreaterThan(4);
});

test("the bounds are in order, never above the label, and wider with age and with an unknown store", () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 20, noNaN: true }),
      fc.integer({ min: 0, max: 700 }),
      fc.integer({ min: 1, max: 100 }),
      fc.integer({ min: 10, max: 30 }),
      (percent, days, more, kept_C) => {
        const known = strengthAfter(percent, days, kept_C);
        const older = strengthAfter(percent, days + more, kept_C);
        const unknown = strengthAfter(percent, days);
        expect(known.least).toBeLessThanOrEqual(known.most);
        expect(known.most).toBeLessThanOrEqual(percent);
        expect(older.least).toBeLessThan(known.least);
        expect(older.most).toBeLessThan(known.most);
        expect(unknown.least).toBeLessThanOrEqual(known.least);
        expect(unknown.most).toBeGreaterThanOrEqual(known.most);
      },
    ),
    { seed: 2 },
  );
});

const stock = (age_days: number, kept_C: number): HypochloriteStock => ({
  kind: "hypochlorite",
  percent: 12.5,
  meaning: "available chlorine by volume",
  age_days,
  kept_C,
});

test("by the published table a solution from an aged stock is within strength and ceiling, or refused", () => {
  let made = 0;
  for (const [kept_C, months, percent] of table) {
    for (const concentration of [100, 500, 1000, 2000]) {
      const mix = () =>
        dilute(stock(months * 30.4, kept_C), { concentration, volume_ml: 1000 }, [], 0.1);
      try {
        const { stages, concentrationAtMost, notes } = mix();
        // What the table's own stock makes of the amounts.
        const true_ppm = (10_000 * percent * stages[0]!.take_ml) / 1000;
        expect(stages).toHaveLength(1);
        expect(true_ppm).toBeGreaterThanOrEqual(concentration);
        expect(true_ppm).toBeLessThanOrEqual(concentrationAtMost);
        expect(concentrationAtMost).toBeLessThanOrEqual(1.21 * 2000);
        expect(notes.join(" ")).toMatch(/between .* and .* ppm.*lower figure/);
        made++;
      } catch {
        expect(refusal(mix).why).toBe("stock too old");
      }
    }
  }
  expect(made).toBeGreaterThan(3);
});

test("six months at 38 degree C are refused: the strength is too uncertain", () => {
  const wanted = { concentration: 1000, volume_ml: 1000 };
  expect(refusal(() => dilute(stock(182, 38), wanted)).why).toBe("stock too old");
});
