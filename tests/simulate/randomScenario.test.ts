import { describe, expect, it } from "vitest";
import { randomScenario } from "../../src/simulate/randomScenario.js";
import { leastNamed } from "../../src/simulate/trueCauses.js";
import { truthOf } from "../../src/simulate/truth.js";

const seeds = Array.from({ length: 600 }, (_, i) => i);
const scenarios = seeds.map((seed) => randomScenario(seed));
const truths = scenarios.map(truthOf);
const cells = truths.flatMap((casts) => casts.flatMap(({ cells }) => Object.values(cells)));
const shareOf = (cause: string) =>
  cells.filter((cell) => cell.cause === cause).length / cells.length;

describe("scenarios drawn at random", () => {
  it("a random scenario is the same for the same seed, and valid for every seed", () => {
    expect(randomScenario(5)).toEqual(scenarios[5]);
    expect(truths).toHaveLength(600);
  });

  it("a random scenario has 12 to 20 casts and one or two cells", () => {
    expect(new Set(scenarios.map(({ casts }) => casts))).toEqual(
      new Set([12, 13, 14, 15, 16, 17, 18, 19, 20]),
    );
    expect(new Set(scenarios.map(({ cells }) => cells!.length))).toEqual(new Set([1, 2]));
  });

  it("random scenarios contain sound cells, fouled cells, and every cause that resembles fouling", () => {
    expect(shareOf("sound")).toBeGreaterThan(0.4);
    expect(shareOf("fouling")).toBeGreaterThan(0.1);
    expect(shareOf("calibration-shift")).toBeGreaterThan(0.05);
    for (const cause of ["pressure-response", "reference-error", "water"]) {
      expect(shareOf(cause)).toBeGreaterThan(0.005);
    }
    const rare = seeds.flatMap((seed) =>
      truthOf(randomScenario(seed, "all")).flatMap(({ cells }) =>
        Object.values(cells).map(({ cause }) => cause),
      ),
    );
    for (const cause of ["transient", "temperature-error", "thermal-lag", "flow"]) {
      expect(rare).toContain(cause);
    }
  });

  it("films of random scenarios have 30 to 1000 ppm, half of them under 173 ppm (log-uniform)", () => {
    const films = scenarios.flatMap(({ events }) =>
      events!.flatMap((event) => (event.kind === "film-step" ? [-event.ppm] : [])),
    );
    expect(Math.min(...films)).toBeGreaterThanOrEqual(30);
    expect(Math.max(...films)).toBeLessThanOrEqual(1000);
    const small = films.filter((ppm) => ppm < Math.sqrt(30 * 1000)).length / films.length;
    expect(Math.abs(small - 0.5)).toBeLessThan(0.12);
  });

  it("random scenarios contain cleanings that remove a film, half of it, or nothing", () => {
    const retained = scenarios.flatMap(({ events }) =>
      events!.flatMap((event) => (event.kind === "cleaning" ? [event.retained] : [])),
    );
    const share = (least: number, most: number) =>
      retained.filter((r) => r >= least && r <= most).length / retained.length;
    expect(share(0, 0.1)).toBeGreaterThan(0.5);
    expect(share(0.3, 0.7)).toBeGreaterThan(0.1);
    expect(share(0.85, 1)).toBeGreaterThan(0.03);
  });

  it("no random calibration lies between sound and shifted, so its true cause is unambiguous", () => {
    for (const { cleanGain_ppm } of cells) {
      const distance = Math.abs(Math.abs(cleanGain_ppm) - leastNamed.cleanGain_ppm);
      expect(distance).toBeGreaterThan(4);
    }
  });
});
