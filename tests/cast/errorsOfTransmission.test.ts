// Errors of transmission come in bursts (common practice, no source). In a burst four readings of ten are wild.
import { expect, test } from "vitest";
import { indexOfDeepest } from "../../src/cast/indexOfDeepest.js";
import { plausiblePressure } from "../../src/cast/plausiblePressure.js";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { seeded } from "../evidence/seeded.js";
import { lowered } from "./castOf.js";

const deepest_dbar = 300;
const rate_Hz = 4;
const scansInBurst = 120;
const wildShare = 0.4;

test.each([1, 2, 3, 4, 5, 6])(
  "bursts of wild pressures leave the legs as they are (seed %i)",
  (seed) => {
    const random = seeded(seed);
    const down = Array.from({ length: deepest_dbar * rate_Hz }, (_, i) => 1 + i / rate_Hz);
    const clean = [...down, ...down.toReversed()];
    const sent = [...clean];
    for (let burst = 0; burst < 8; burst++) {
      const from = Math.floor(random.uniform() * (clean.length - scansInBurst));
      for (let i = from; i < from + scansInBurst; i++) {
        if (random.uniform() < wildShare) sent[i] = -15 + 7000 * random.uniform();
      }
    }
    const { pressure } = plausiblePressure(Float64Array.from(sent));
    expect(pressure[indexOfDeepest(pressure)]).toBeLessThan(deepest_dbar + 21);
    const legs = splitLegs(lowered(sent));
    for (const leg of ["down", "up"] as const) {
      expect(legs[leg].length).toBeGreaterThan(0.7 * down.length);
    }
  },
);
