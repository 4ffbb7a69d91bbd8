import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { thinLayers } from "../../../src/cast/thinLayers.js";
import { salinityGradients } from "../../../src/evidence/bottles/salinityGradients.js";
import { bottlesAt, type Closure, castThrough, column } from "./closures.js";

const linear =
  (perDbar: number) =>
  (pressure_dbar: number): Closure => ({
    pressure_dbar,
    temperature_C: 10,
    salinity: 35 + perDbar * pressure_dbar,
  });
const of = (closures: readonly Closure[]) =>
  salinityGradients(bottlesAt(closures, { primary: 0 }), ["primary"], undefined);

/** Salinity towards where the package came from: at the deepest stop from above. */
const signAt = (place: number, places: readonly number[]) =>
  place === Math.max(...places) ? -1 : 1;

describe("the gradient of salinity where a bottle closed", () => {
  it("in an even gradient the bottles give the true gradient in any order: below, at the deepest stop above", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -0.002, max: 0.002, noNaN: true }),
        fc.uniqueArray(fc.integer({ min: 0, max: 100 }), { minLength: 2, maxLength: 24 }),
        (perDbar, places) => {
          const found = of(places.map((place) => linear(perDbar)(10 * place)));
          found.forEach((gradient, i) => {
            expect(gradient).toBeCloseTo(signAt(places[i]!, places) * perDbar, 8);
          });
        },
      ),
      { seed: 3 },
    );
  });

  it("the gradient at a bottle is the steeper of the two to its neighbours", () => {
    const closures = [
      { pressure_dbar: 100, temperature_C: 10, salinity: 35 },
      { pressure_dbar: 200, temperature_C: 10, salinity: 35 },
      { pressure_dbar: 300, temperature_C: 10, salinity: 35.1 },
      { pressure_dbar: 400, temperature_C: 10, salinity: 35.11 },
    ];
    const expected = [0, 0.001, 0.001, -0.0001];
    const found = of(closures);
    expect(found).toEqual(expected.map((gradient) => expect.closeTo(gradient, 9)));
  });

  it("a halocline of 3 that the package passed 14 dbar before the deepest stop is still felt there, and hardly 40 dbar after", () => {
    const at = (pressure_dbar: number, salinity: number) => ({
      pressure_dbar,
      temperature_C: 10,
      salinity,
    });
    const above = [at(10, 25), at(16, 28), at(30, 28.0001)];
    const [, , near] = of(above);
    const [, , far] = of([above[0]!, above[1]!, at(56, 28.0001)]);
    // exp(-14 / 2.5) is 0.0037 of what a bottle held before it left the halocline, where it held water of about 26.2.
    expect(-near! * 2.5).toBeGreaterThan(0.003);
    expect(-near! * 2.5).toBeLessThan(0.015);
    expect(-far! * 2.5).toBeLessThan(1e-4);
  });

  it("the noise of bottles of one stop is not taken for a gradient", () => {
    const closures = [1000, 1001, 1001.5, 1500].map((p, i) => ({
      ...linear(0)(p),
      salinity: 35 + 0.0005 * (i % 2),
    }));
    for (const gradient of of(closures)) expect(Math.abs(gradient)).toBeLessThan(2e-6);
  });

  it("the scans of a cast give the same gradient, within the smoothing of 5 dbar layers", () => {
    const cast = castThrough(1200, { down: { primary: 0 }, up: { primary: 0 } });
    const places = [100, 300, 600, 1000];
    const bottles = bottlesAt(places.map(column), {});
    const found = salinityGradients(bottles, ["primary"], thinLayers(cast, splitLegs(cast)));
    found.forEach((gradient, i) => {
      // dS/dp of the column, by its formula.
      const truth = -(1.3 / 400) * Math.exp(-places[i]! / 400);
      expect(Math.abs(gradient / truth - 1)).toBeLessThan(0.02);
    });
  });

  it("an unknown gradient is assumed stratified above 200 dbar and calm below", () => {
    const [shallow] = of([linear(0)(50)]);
    const [deep] = of([linear(0)(3000)]);
    expect(Math.abs(shallow!)).toBeGreaterThan(10 * Math.abs(deep!));
    expect(Math.abs(deep!)).toBeGreaterThan(0);
  });

  it("a gain error of the cell hardly changes the gradient", () => {
    const closures = [50, 200, 500, 900].map(column);
    const fouled = salinityGradients(
      bottlesAt(closures, { primary: -5000 }),
      ["primary"],
      undefined,
    );
    const sound = of(closures);
    expect(fouled.map((gradient, i) => gradient / sound[i]!)).toEqual(
      closures.map(() => expect.closeTo(1, 1)),
    );
  });

  it("every bottle has a finite gradient, for any missing data", () => {
    const closures = [50, Number.NaN, 500, 900].map(column);
    const bottles = bottlesAt(closures, { primary: 0 }).map((bottle, i) =>
      i === 2
        ? { ...bottle, ctd: { primary: { temperature_C: 5, conductivity_mS_cm: 1e6 } } }
        : bottle,
    );
    const found = salinityGradients(bottles, ["primary"], undefined);
    expect(found).toHaveLength(4);
    for (const gradient of found) expect(Math.abs(gradient)).toBeLessThan(0.1);
    expect(salinityGradients([], ["primary"], undefined)).toEqual([]);
    const noReadings = bottlesAt(closures, {});
    for (const gradient of salinityGradients(noReadings, ["primary"], undefined)) {
      expect(Math.abs(gradient)).toBeGreaterThan(0);
    }
  });
});
