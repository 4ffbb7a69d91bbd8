// A film that the rinses and the flow take away little by little: the pair changes a little on every cast, and bottles come only
// on every fourth. Known truth: observations made from gains, without water or sensors.
import { describe, expect, it } from "vitest";
import { track } from "../../src/track/track.js";
import { deviates, held, inputOf, recovery } from "./observations.js";

const both = ["primary", "secondary"] as const;

/** The film comes before the fourth cast; then each cast takes a share of it that varies by a factor of two. */
function cruise(seed: number) {
  const normal = deviates(seed);
  let film = 0;
  return Array.from({ length: 8 }, (_, i) => {
    if (i === 3) film = -400;
    if (i > 3) film *= 1 - 0.15 * Math.exp(0.5 * normal());
    const gains = { primary: { down: film, up: film }, secondary: { down: 0, up: 0 } };
    return { film, input: inputOf(i, { gains, bottles: i < 4 || i === 7 ? 12 : 0 }, normal) };
  });
}

describe("a film of -400 ppm in one cell that loses some 15 % on every cast", () => {
  const seen = [1, 2, 3, 4].map((seed) => {
    const casts = cruise(seed);
    const tracked = track(
      both,
      casts.map(({ input }) => input),
      recovery,
    );
    return casts.map(({ film }, i) => ({
      film,
      fouled: held(both, tracked[i]!, "primary"),
      sound: held(both, tracked[i]!, "secondary"),
    }));
  });

  it("is not told as a new film in the other cell on the next two casts, which have no bottles", () => {
    const told = seen.flatMap((casts) =>
      casts.slice(4, 6).map(({ sound }) => sound.causes.fouling ?? 0),
    );
    expect(told.reduce((sum, p) => sum + p, 0) / told.length).toBeLessThan(0.45);
    const errors = seen.flatMap((casts) => casts.slice(4, 6).map(({ sound }) => sound.mean));
    expect(Math.sqrt(errors.reduce((sum, e) => sum + e ** 2, 0) / errors.length)).toBeLessThan(40);
  });

  it("is what the next bottles show", () => {
    for (const casts of seen) {
      const { film, fouled, sound } = casts[7]!;
      expect(Math.abs(fouled.mean - film)).toBeLessThan(25);
      expect(Math.abs(sound.mean)).toBeLessThan(25);
    }
  });
});
