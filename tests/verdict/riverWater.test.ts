// An invented shallow column that water flows past between the legs. In a river mouth the salinity changes by some hundredths in
// a minute (common practice, no source); in the open sea it does not, and the same difference is a film.
import { expect, test } from "vitest";
import { assembleCruise } from "../../src/read/assembleCruise.js";
import { cFromSp } from "../../src/seawater/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { castOf } from "../cast/castOf.js";
import { seeded } from "../evidence/seeded.js";

const deepest_dbar = 25;
const rate_Hz = 4;
/** The whole up leg reads fresh by this, ppm: about 0.06 in salinity in the river mouth. */
const fresher_ppm = 2500;

interface Column {
  readonly surfaceSalinity: number;
  /** Bottom minus surface. */
  readonly rise: number;
}

/** One cell, no bottles, lowered and hoisted at half a metre per second. */
function columnOf({ surfaceSalinity, rise }: Column) {
  const random = seeded(7);
  const steps = Array.from({ length: deepest_dbar * 2 * rate_Hz }, (_, i) => i / (2 * rate_Hz));
  const down = steps.map((p) => p + 1);
  const pressure = [...down, ...down.toReversed()];
  const temperature = pressure.map((p) => 15 - 4 * (p / deepest_dbar) + 0.0005 * random.normal());
  const conductivity = pressure.map((p, i) => {
    const salinity = surfaceSalinity + rise * (p / deepest_dbar) ** 2 + 0.0005 * random.normal();
    return cFromSp(salinity, temperature[i]!, p) * (i < down.length ? 1 : 1 - fresher_ppm / 1e6);
  });
  return castOf(pressure, temperature, conductivity, {
    sampleRate_Hz: rate_Hz,
    time_s: Float64Array.from(pressure, (_, i) => i / rate_Hz),
  });
}

function told(column: Column) {
  const start = "2031-05-01T10:00:00Z";
  const cruise = assembleCruise({
    name: "river mouth",
    casts: [{ id: "001", start, data: columnOf(column) }],
    inputs: [],
  });
  const { casts } = assessCruise(cruise);
  const { causes, advice } = casts[0]!.cells.primary!;
  const film = causes.find(({ cause }) => cause === "fouling")?.probability ?? 0;
  return { film, advice: advice.intensity };
}

test("fresher water on the way up in a river mouth is not told as a film", () => {
  const { film, advice } = told({ surfaceSalinity: 21, rise: 1.5 });
  expect(film).toBeLessThan(0.5);
  expect(["none", "rinse"]).toContain(advice);
});

test("the same difference in the water of the open sea is a film", () => {
  expect(told({ surfaceSalinity: 35, rise: 0.05 }).film).toBeGreaterThan(0.9);
});
