import { describe, expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { alignment } from "../../src/response/alignment/alignment.js";
import { simulateCruise } from "../../src/simulate/index.js";

const slow = 240_000;

function aligned(seed: number, rate_Hz: number, seconds: number, deepest_dbar: number) {
  const { cruise } = simulateCruise({
    seed,
    casts: 1,
    deepest_dbar,
    cells: ["primary"],
    bottles: 0,
    sampling: { kind: "time-series", rate_Hz },
    ...(seconds === 0
      ? {}
      : { events: [{ kind: "misalignment", cells: ["primary"], fromCast: 1, seconds }] }),
  });
  const cast = cruise.casts[0]!.data!;
  return alignment(cast, splitLegs(cast), "primary").alignment!;
}

describe.each([
  { rate_Hz: 24, deepest_dbar: 300, casts: 4 },
  { rate_Hz: 4, deepest_dbar: 600, casts: 12 },
])("at $rate_Hz Hz", ({ rate_Hz, deepest_dbar, casts }) => {
  test(
    "a known delay of conductivity is found within its stated uncertainty",
    () => {
      let inside = 0;
      let all = 0;
      let squares = 0;
      let seed = 7;
      for (const seconds of [0, 0.02, -0.02, 0.073, -0.15, 0.3]) {
        for (let k = 0; k < casts; k++) {
          const found = aligned(seed++, rate_Hz, seconds, deepest_dbar);
          const z = (found.seconds - seconds) / found.standardUncertainty;
          all++;
          squares += z * z;
          if (Math.abs(z) < 1.96) inside++;
        }
      }
      expect(inside / all).toBeGreaterThan(0.85);
      expect(squares / all).toBeLessThan(1.6);
    },
    slow,
  );
});
