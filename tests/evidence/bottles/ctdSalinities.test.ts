// A bottle file with the salinities of the CTD in the column of the laboratory (common practice, no source).
import { describe, expect, it } from "vitest";
import type { Cruise } from "../../../src/cast/cruise.js";
import { closureReader } from "../../../src/evidence/bottles/closureReadings.js";
import { spFromC } from "../../../src/seawater/index.js";
import { simulateCruise } from "../../../src/simulate/index.js";
import { assessCruise } from "../../../src/verdict/assessCruise.js";
import { seeded } from "../seeded.js";

const film_ppm = -220;
const cells = ["primary"] as const;

function simulated(seed: number) {
  return simulateCruise({
    seed,
    casts: 8,
    deepest_dbar: 2500,
    bottles: 12,
    cells,
    events: [{ kind: "film-step", cells, cast: 5, at: "before-cast", ppm: film_ppm }],
  });
}

/** From this cast on, the salinities are those of the CTD, with this scatter, rounded to four decimals. */
function withSalinitiesOfCtd({ casts, ...cruise }: Cruise, from: string, scatter: number): Cruise {
  const { normal } = seeded(9);
  const bottles = casts.flatMap(({ id, data, start }) => {
    const own = cruise.bottles.filter(({ cast }) => cast === id);
    const reader = closureReader(data, own, start === undefined ? {} : { start });
    return own.map((bottle) => {
      const { conductivity_mS_cm, temperature_C, pressure_dbar } = reader.of(bottle, "primary")!;
      const ctd = spFromC(conductivity_mS_cm, temperature_C, pressure_dbar) + scatter * normal();
      return id < from ? bottle : { ...bottle, salinity: Math.round(ctd * 1e4) / 1e4 };
    });
  });
  return { ...cruise, casts, bottles };
}

/** Casts with such a note. */
const named = (cruise: Cruise) =>
  assessCruise(cruise).casts.flatMap(({ cast, notes }) =>
    notes.filter((note) => note.includes("not measured")).map((note) => ({ cast, note })),
  );

describe("salinities of the CTD in the column of the laboratory", () => {
  it.each([1, 2])("they do not hide a film from the other evidence (seed %i)", (seed) => {
    const { cruise } = simulated(seed);
    const copied = withSalinitiesOfCtd(cruise, "003", 0.0001);
    const { gainError, causes } = assessCruise(copied).casts.at(-1)!.cells.primary!;
    // As laboratory values they would show a gain error of zero.
    expect(gainError.up.ppm).toBeLessThan(film_ppm / 2);
    expect(gainError.up.interval95[0]).toBeLessThan(film_ppm);
    expect(causes[0]).toMatchObject({ cause: "fouling" });
  });

  it("they are named, also on the first casts on which they occur", () => {
    const { cruise } = simulated(1);
    const found = named(withSalinitiesOfCtd(cruise, "003", 0.0001));
    expect(found.map(({ cast }) => cast)).toEqual(["003", "004", "005", "006", "007", "008"]);
    for (const { note } of found) expect(note).toContain("copied from the primary cell");
  });

  it("a very good laboratory beside a cell without any error is kept", () => {
    const { cruise } = simulated(1);
    expect(named(withSalinitiesOfCtd(cruise, "001", 0.0007))).toEqual([]);
  });
});
