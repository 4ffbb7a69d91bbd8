// Whatever the columns hold, health is told and nothing is thrown.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Cast } from "../../src/cast/cast.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { castHealth } from "../../src/health/castHealth.js";
import { healthKinds } from "../../src/health/finding.js";

const number = fc.oneof(
  fc.double(),
  fc.double({ min: -5, max: 100, noNaN: true }),
  fc.constantFrom(0, Number.NaN, -999, -9.99, 1e35, Number.POSITIVE_INFINITY, 35, 10),
);
const lowering = (n: number) => Array.from({ length: n }, (_, i) => (i < n / 2 ? i : n - i));

const casts = fc
  .record({
    n: fc.integer({ min: 0, max: 200 }),
    cells: fc.integer({ min: 1, max: 2 }),
    withTime: fc.boolean(),
    lowered: fc.boolean(),
    rate: fc.constantFrom(undefined, 24, 1),
  })
  .chain(({ n, cells, withTime, lowered, rate }) => {
    const column = fc
      .array(number, { minLength: n, maxLength: n })
      .map((values) => Float64Array.from(values));
    return fc.record({ a: column, b: column, c: column, d: column, e: column }).map(
      ({ a, b, c, d, e }): Cast => ({
        id: "any",
        conductivityFrom: "measured",
        ...(rate === undefined ? {} : { sampleRate_Hz: rate }),
        columns: {
          ...(withTime ? { time_s: Float64Array.from({ length: n }, (_, i) => i / 4) } : {}),
          pressure_dbar: lowered ? Float64Array.from(lowering(n)) : a,
          primary: { temperature_C: b, conductivity_mS_cm: c },
          ...(cells === 2 ? { secondary: { temperature_C: d, conductivity_mS_cm: e } } : {}),
          others: {},
        },
      }),
    );
  });

describe("any columns", () => {
  it("give findings with places inside the cast, finite sizes and whole sentences, and change nothing", () => {
    fc.assert(
      fc.property(casts, (cast) => {
        const before = structuredClone(cast.columns);
        const { findings } = castHealth(cast, splitLegs(cast));
        const n = cast.columns.pressure_dbar.length;
        for (const { kind, scans, size, what, mend } of findings) {
          expect(healthKinds).toContain(kind);
          expect(scans.from).toBeGreaterThanOrEqual(0);
          expect(scans.to).toBeGreaterThanOrEqual(scans.from);
          expect(scans.to).toBeLessThan(n);
          expect(Number.isFinite(size.value)).toBe(true);
          expect(`${what} ${mend}`).not.toMatch(/NaN|undefined|Infinity/);
        }
        expect(cast.columns).toEqual(before);
      }),
      { numRuns: 80, seed: 17 },
    );
  });

  it("thousands of scans without any reading are reported as dropouts", () => {
    const nothing = new Float64Array(5000).fill(Number.NaN);
    const cast: Cast = {
      id: "silent",
      conductivityFrom: "measured",
      columns: {
        pressure_dbar: Float64Array.from(lowering(5000), (p) => p / 20),
        primary: { temperature_C: nothing, conductivity_mS_cm: nothing },
        others: {},
      },
    };
    const { findings } = castHealth(cast, splitLegs(cast));
    expect(findings.map(({ kind, sensor }) => `${kind} ${sensor}`)).toEqual([
      "dropouts conductivity",
      "dropouts temperature",
    ]);
  });
});
