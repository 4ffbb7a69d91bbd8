// The wake of the package and the flow through the cells differ between the legs, on every cast alike (judgement: 0.0002 to
// 0.0003 in salinity). Each cast on its own looks as if a film had grown in the water.
import { test } from "vitest";
import type { CellColumns } from "../../src/cast/cast.js";
import type { CruiseCast } from "../../src/cast/cruise.js";
import { castId } from "../../src/simulate/scenario.js";
import { seeded } from "../evidence/seeded.js";
import { simulateWater } from "../evidence/simulateWater.js";
import { expectNoFilm, withTwoCells } from "./twoSoundCells.js";

const hoursBetween = 12;
const upFresher_ppm = 5;

/** A cast of 3000 dbar at 1 Hz in calm water; two sound cells. */
function castInCalmWater(cast: number): CruiseCast {
  const lag = { alpha: 0.0245, tau_s: 9.5 };
  const seed = 99 + cast;
  const water = simulateWater({ deepest_dbar: 3000, heave_dbar: 3, spice: 0.1, seed, lag });
  const { pressure_dbar, primary } = water.columns;
  const random = seeded(7000 + seed);
  const scans = pressure_dbar.length;
  const read = (temperatureSd: number, conductivitySd: number): CellColumns => ({
    temperature_C: primary.temperature_C.map((t) => t + temperatureSd * random.normal()),
    conductivity_mS_cm: primary.conductivity_mS_cm.map(
      (c, k) =>
        c * (k < scans / 2 ? 1 : 1 - upFresher_ppm * 1e-6) + conductivitySd * random.normal(),
    ),
  });
  const id = castId(cast);
  const start = new Date(Date.UTC(2031, 4, 3) + cast * hoursBetween * 3_600_000).toISOString();
  const columns = {
    ...water.columns,
    time_s: Float64Array.from({ length: scans }, (_, k) => k),
    primary: read(0, 0),
    secondary: read(0.0002, 0.0001),
  };
  return { id, start, data: { ...water, id, start, sampleRate_Hz: 1, columns } };
}

test("an up leg that reads 5 ppm fresher than the down leg on each of 8 casts is no film that grows", () => {
  const casts = [1, 2, 3, 4, 5, 6, 7, 8].map(castInCalmWater);
  // Added up over the casts it was a film of -85 ppm, 0.89 probable, on the eighth.
  expectNoFilm(withTwoCells(casts, 1));
});
