// A polar halocline: salinity rises from 33 to 34 while temperature stays near freezing and nearly uniform, so a
// millikelvin between two waters of one salinity is 0.02 in salinity between those of one temperature (sizes: judgement).
import { expect, test } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { legsEvidence } from "../../../src/evidence/legs/legs.js";
import { cFromSp, ptFromT, srFromSp } from "../../../src/seawater/index.js";
import { castOf } from "../../cast/castOf.js";
import { seeded } from "../seeded.js";

const deepest_dbar = 200;
const between = (p: number, top: number, bottom: number) =>
  Math.min(1, Math.max(0, (p - top) / (bottom - top)));
const salinityAt = (p: number) => 33 + between(p, 60, 110) + 0.0002 * p;
const thetaAt = (p: number) => -1.6 + 0.1 * between(p, 60, 160);

/** Both legs at 1 m/s and 1 Hz; the up leg meets water from `deeper_dbar` above, warmer by `warmer_K` at its salinity. */
function castWith(deeper_dbar: number, warmer_K: number) {
  const random = seeded(1);
  const levels = Array.from({ length: deepest_dbar }, (_, i) => i + 1);
  const scans = [
    ...levels.map((p) => ({ p, at: p, warmer: 0 })),
    ...levels.toReversed().map((p) => ({ p, at: p - deeper_dbar, warmer: warmer_K })),
  ];
  const truth = scans.map(({ p, at, warmer }) => {
    const salinity = salinityAt(at);
    const temperature = ptFromT(srFromSp(salinity), thetaAt(at) + warmer, 0, p);
    return { temperature, conductivity: cFromSp(salinity, temperature, p) };
  });
  return castOf(
    scans.map(({ p }) => p),
    truth.map(({ temperature }) => temperature + 0.00005 * random.normal()),
    truth.map(({ conductivity }) => conductivity + 0.00003 * random.normal()),
    { sampleRate_Hz: 1 },
  );
}

test("an internal wave of 1 dbar and a millikelvin between the legs in a polar halocline are no difference of the cell", () => {
  for (const deeper_dbar of [-1, 1]) {
    for (const warmer_K of [-0.0005, 0, 0.0005, 0.001]) {
      const cast = castWith(deeper_dbar, warmer_K);
      const { observations } = legsEvidence(cast, splitLegs(cast), "primary");
      expect(observations.length).toBeGreaterThan(4);
      for (const { value, variance } of observations) {
        // One layer was -560 ppm, 8 of its standard deviations.
        expect(Math.abs(value)).toBeLessThan(3 * Math.sqrt(variance));
      }
      // Water that is uniform in salinity still says whether the cell has changed.
      const below = observations.filter(({ pressure_dbar }) => pressure_dbar! > 140);
      expect(Math.min(...below.map(({ variance }) => Math.sqrt(variance)))).toBeLessThan(50);
    }
  }
});
