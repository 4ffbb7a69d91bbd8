import { describe, expect, it } from "vitest";
import type { Observation } from "../../src/model/observation.js";
import { track } from "../../src/track/track.js";
import { deviates, held, inputOf, recovery } from "../track/observations.js";

/** Water of 50 and of 25 mS/cm: an offset of 5 uS/cm is 100 and 200 ppm there, by the definition of both. */
const warm = { conductivity_mS_cm: 50, temperature_C: 20 };
const cold = { conductivity_mS_cm: 25, temperature_C: -1 };

function cruise(offset_uS_cm: (cast: number) => number) {
  const normal = deviates(4);
  return Array.from({ length: 6 }, (_, i) => {
    const input = inputOf(i, { gains: { primary: { down: 0, up: 0 } }, bottles: 24 }, normal);
    const observations = input.observations.map((one, k): Observation => {
      const water = k % 2 === 0 ? warm : cold;
      const ppm = one.line === "bottles" ? (1e3 * offset_uS_cm(i)) / water.conductivity_mS_cm : 0;
      return { ...one, value: one.value + ppm, pressure_dbar: 500, water };
    });
    return { ...input, observations };
  });
}

describe("an offset that appears in mid-cruise", () => {
  it.each([5, 25])(
    "of %d uS/cm is no film: in ppm it is twice as large in water of half the conductivity",
    (size) => {
      const last = held(
        ["primary"],
        track(
          ["primary"],
          cruise((i) => (i < 3 ? 0 : -size)),
          recovery,
        ).at(-1)!,
        "primary",
      );
      expect(last.causes.offset ?? 0).toBeGreaterThan(0.8);
      expect(last.causes.fouling ?? 0).toBeLessThan(0.1);
    },
  );

  it("is not reported without an offset in the data", () => {
    const last = held(
      ["primary"],
      track(
        ["primary"],
        cruise(() => 0),
        recovery,
      ).at(-1)!,
      "primary",
    );
    expect(last.causes.offset ?? 0).toBeLessThan(0.02);
  });
});
