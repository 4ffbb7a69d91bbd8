// Faults put into open cruises: water, bottles, cells and laboratories are real, and the truth is known for what was put in.
// The data are read from ../shared, which is not part of the package: where it is absent these are skipped, and the main
// job is held to simulated truth in the files beside this one.
import { existsSync } from "node:fs";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../src/cast/bottle.js";
import type { CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { readCruise } from "../../src/node/index.js";
import { randomStream } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { VerdictDocument } from "../../src/verdict/verdict.js";

/** 0.001 in salinity at SP 35 (PSS-78). */
const thousandth_ppm = 26;
/** See SOURCE.md beside each file: two cells, not adjusted to the bottles. */
for (const id of ["ar7-01", "at30-01", "kn221-04"]) {
  const path = `../shared/data/subpolar-atlantic-${id}/bottles.csv`;
  describe.skipIf(!existsSync(path))(`faults put into the open cruise ${id}`, async () => {
    const cruise = existsSync(path) ? await readCruise(path) : undefined;
    const measured = cruise?.casts.filter(({ id }) => measuredOf(cruise, id).length > 0) ?? [];
    const first = Math.floor(measured.length / 2);
    const from = new Set(measured.slice(first).map(({ id }) => id));
    const [start] = from;
    const before = cruise && assessCruise(cruise);

    /** Verdicts of the casts with measured bottles, from the fault on. */
    const verdictsOf = (document: VerdictDocument) =>
      document.casts.filter(({ cast }) => from.has(cast));
    const gains = (document: VerdictDocument, cell: CellName) =>
      verdictsOf(document).map((verdict) => verdict.cells[cell]!.gainError.up.ppm);

    it.each([60, 150, 400])(
      "a film of %i ppm in one cell is found on its first cast, with its size, and the other cell is as before",
      (film_ppm) => {
        const after = assessCruise(
          changed(cruise!, (bottle) =>
            from.has(bottle.cast) ? readingFresh(bottle, { primary: film_ppm }) : bottle,
          ),
        );
        const was = gains(before!, "primary");
        for (const [i, ppm] of gains(after, "primary").entries()) {
          expect(Math.abs(ppm - was[i]! + film_ppm)).toBeLessThan(thousandth_ppm);
        }
        const other = gains(before!, "secondary");
        for (const [i, ppm] of gains(after, "secondary").entries()) {
          expect(Math.abs(ppm - other[i]!)).toBeLessThan(Math.min(thousandth_ppm, film_ppm / 3));
        }
        for (const { cast, cells } of verdictsOf(after)) {
          expect(cells.primary!.causes[0]!.cause).toBe("fouling");
          expect(cells.primary!.advice.deepClean).toBe(true);
          // On the first cast with a film of 60 ppm, three causes of the other cell are about equally probable on one cruise.
          const fouled = cells.secondary!.causes.find(({ cause }) => cause === "fouling");
          expect(fouled?.probability ?? 0).toBeLessThan(0.4);
          if (cast !== start || film_ppm > 60) {
            expect(cells.secondary!.causes[0]!.cause).not.toBe("fouling");
          }
          expect(cells.secondary!.advice.deepClean).toBe(false);
        }
      },
    );

    it("a film in both cells, thinner in one, is found in both", () => {
      const film = { primary: 150, secondary: 90 } as const;
      const after = assessCruise(
        changed(cruise!, (bottle) => (from.has(bottle.cast) ? readingFresh(bottle, film) : bottle)),
      );
      for (const cell of ["primary", "secondary"] as const) {
        const was = gains(before!, cell);
        for (const [i, ppm] of gains(after, cell).entries()) {
          expect(Math.abs(ppm - was[i]! + film[cell])).toBeLessThan(40);
        }
        for (const { cells } of verdictsOf(after)) {
          expect(cells[cell]!.causes[0]!.cause).toBe("fouling");
        }
      }
    });

    it("samples of one cast that are spoilt, or those of the cast before, change no gain and clean no cell", () => {
      const random = randomStream(7);
      const earlier = measuredOf(cruise!, measured[first - 1]!.id);
      const own = measuredOf(cruise!, start!);
      const spoilt = changed(cruise!, (bottle) =>
        bottle.cast === start
          ? { ...bottle, salinity: bottle.salinity - 0.005 * 20 ** random.uniform() }
          : bottle,
      );
      const copied = changed(cruise!, (bottle) => {
        const place = own.indexOf(bottle);
        return place < 0
          ? bottle
          : { ...bottle, salinity: earlier[Math.min(place, earlier.length - 1)]!.salinity };
      });
      for (const wrong of [spoilt, copied]) {
        const after = assessCruise(wrong);
        for (const cell of ["primary", "secondary"] as const) {
          const was = gains(before!, cell);
          for (const [i, ppm] of gains(after, cell).entries()) {
            expect(Math.abs(ppm - was[i]!)).toBeLessThan(12);
          }
        }
        for (const { advice } of after.casts) expect(advice.deepClean).toBe(false);
      }
    });
  });
}

function measuredOf({ bottles }: Cruise, cast: string): readonly Bottle[] {
  return bottles.filter((one) => one.cast === cast && one.salinity > 0);
}

function changed(cruise: Cruise, change: (bottle: Bottle) => Bottle): Cruise {
  return { ...cruise, bottles: cruise.bottles.map(change) };
}

/** A film makes a cell read fresh by the same factor in all water. */
function readingFresh(bottle: Bottle, film: Readonly<Partial<Record<CellName, number>>>): Bottle {
  if (bottle.ctd === undefined) return bottle;
  const ctd = Object.fromEntries(
    Object.entries(bottle.ctd).map(([cell, reading]) => {
      const factor = 1 - 1e-6 * (film[cell as CellName] ?? 0);
      return [cell, { ...reading, conductivity_mS_cm: factor * reading.conductivity_mS_cm }];
    }),
  );
  return { ...bottle, ctd };
}
