// Archives keep casts of one leg, in averages (common practice, no source). On an invented cruise a film comes into one cell
// within that leg. The two cells in the same water show where, though there is no other leg to compare.
import { describe, expect, it } from "vitest";
import type { Cast, LegName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const film_ppm = -250;
const onset_dbar = 500;

function cruiseOf(leg: LegName, seed: number, withFilm: boolean): Cruise {
  const { cruise } = simulateCruise({
    seed,
    casts: 4,
    cells: ["primary", "secondary"],
    deepest_dbar: 1200,
    bottles: 10,
    sampling: { kind: "averages", layer_dbar: 2 },
    events: withFilm
      ? [
          {
            kind: "film-step",
            cells: ["primary"],
            cast: 4,
            at: { leg, pressure_dbar: onset_dbar },
            ppm: film_ppm,
          },
        ]
      : [],
  });
  return { ...cruise, casts: cruise.casts.map((one) => ({ ...one, data: only(one.data!, leg) })) };
}

/** The cast without its other leg. */
function only(cast: Cast, leg: LegName): Cast {
  const rows = splitLegs(cast)[leg];
  const pick = (column: Float64Array) => Float64Array.from(rows, (row) => column[row]!);
  const { pressure_dbar, time_s, primary, secondary } = cast.columns;
  const cell = (own: NonNullable<typeof secondary>) => ({
    temperature_C: pick(own.temperature_C),
    conductivity_mS_cm: pick(own.conductivity_mS_cm),
  });
  return {
    ...cast,
    columns: {
      pressure_dbar: pick(pressure_dbar),
      ...(time_s === undefined ? {} : { time_s: pick(time_s) }),
      primary: cell(primary),
      secondary: cell(secondary!),
      others: {},
    },
  };
}

describe.each(["down", "up"] as const)("casts of the %s leg alone", (leg) => {
  it.each([1, 2])("a film that comes at 500 dbar is found, cruise %i", (seed) => {
    const verdict = assessCruise(cruiseOf(leg, seed, true)).casts.at(-1)!;
    const { primary, secondary } = verdict.cells;
    expect(primary!.causes[0]!.cause).toBe("fouling");
    expect(primary!.change).toMatchObject({ kind: "step", sinceCast: "004", when: "within", leg });
    expect(primary!.change).toHaveProperty("pressure_dbar");
    const { pressure_dbar } = primary!.change as { pressure_dbar: number };
    expect(Math.abs(pressure_dbar - onset_dbar)).toBeLessThan(20);
    const step = primary!.gainError.up.ppm - primary!.gainError.down.ppm;
    expect(Math.abs(step - film_ppm)).toBeLessThan(40);
    expect(secondary!.causes[0]!.cause).toBe("sound");
  });

  it("sound cells stay sound", () => {
    for (const { cells } of assessCruise(cruiseOf(leg, 1, false)).casts) {
      for (const { causes, change } of Object.values(cells)) {
        expect(causes[0]!.cause).toBe("sound");
        expect(change).toMatchObject({ kind: "none" });
      }
    }
  });
});
