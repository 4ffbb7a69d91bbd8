// A barrier layer, as in the warm pool: a mixed layer that is fresher by some tenths lies on salty water, and rain or a current
// changes it by a tenth between the legs (common practice, no source). Invented cast, one cell, no bottles.
import { expect, test } from "vitest";
import { assembleCruise } from "../../src/read/assembleCruise.js";
import { cFromSp } from "../../src/seawater/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { castOf } from "../cast/castOf.js";
import { seeded } from "../evidence/seeded.js";

const deepest_dbar = 1000;
const rate_Hz = 4;
const mixed_dbar = 50;
/** The mixed layer lacks this in salinity on the way down, and more on the way up. */
const fresher = 0.4;
const change = 0.13;

/** 1 in the mixed layer, 0 well below it. */
const share = (p: number) => 1 / (1 + Math.exp((p - mixed_dbar) / 2));
const noise = 0.001;

test("a mixed layer that freshens between the legs is no reason for a deep clean", () => {
  for (let seed = 1; seed <= 10; seed++) {
    const { causes, advice } = told(seed);
    const film = causes.find(({ cause }) => cause === "fouling")?.probability ?? 0;
    expect(film).toBeLessThan(0.5);
    expect(["none", "rinse"]).toContain(advice.intensity);
  }
});

/** The verdict on the cell. */
function told(seed: number) {
  const random = seeded(seed);
  const down = Array.from({ length: deepest_dbar * rate_Hz }, (_, i) => 1 + i / rate_Hz);
  const pressure = [...down, ...down.toReversed()];
  const temperature = pressure.map(
    (p) => 8 + 20 * Math.exp(-Math.max(0, p - 30) / 200) + noise * random.normal(),
  );
  const conductivity = pressure.map((p, i) => {
    const mixed = fresher + (i < down.length ? 0 : change);
    const salinity = 35.3 - mixed * share(p) + noise * random.normal();
    return cFromSp(salinity, temperature[i]!, p);
  });
  const data = castOf(pressure, temperature, conductivity, {
    sampleRate_Hz: rate_Hz,
    time_s: Float64Array.from(pressure, (_, i) => i / rate_Hz),
  });
  const cast = { id: "001", start: "2031-05-01T10:00:00Z", data };
  const cruise = assembleCruise({ name: "warm pool", casts: [cast], inputs: [] });
  return assessCruise(cruise).casts[0]!.cells.primary!;
}
