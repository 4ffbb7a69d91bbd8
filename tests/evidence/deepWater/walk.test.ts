// How far the deep water may have changed from one cast to the next.
import { describe, expect, it } from "vitest";
import type { Cast, CellColumns } from "../../../src/cast/cast.js";
import { indexOfDeepest } from "../../../src/cast/indexOfDeepest.js";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { thinLayers } from "../../../src/cast/thinLayers.js";
import { deepWaterOf, noDeepWaterYet } from "../../../src/evidence/deepWater/deepWater.js";
import { deepWaterLine } from "../../../src/evidence/deepWater/deepWaterLine.js";
import { distanceFactor } from "../../../src/evidence/deepWater/deepWaterNoise.js";
import { deepWaterRead } from "../../../src/evidence/deepWater/deepWaterRead.js";
import { positionOf } from "../../../src/evidence/deepWater/deepWaterStep.js";
import { withinCast } from "../../../src/evidence/path/withinCast.js";
import { alongTrack, castsOf, bothCells as cells } from "./deepCasts.js";

describe("the walk of the deep water", () => {
  it("the variance of a deep-water step is proportional to distance: one degree on the equator is 111 km, the usual is 50 km", () => {
    // A degree of a great circle of the earth's mean radius, 6371 km, is 111.19 km. At one place it counts as 10 km.
    const here = { latitude: 0, longitude: 30 };
    const away = (degrees: number) =>
      distanceFactor(here, { latitude: 0, longitude: 30 + degrees }) - distanceFactor(here, here);
    expect(away(1) / (111.19 / 60)).toBeCloseTo(1, 3);
    expect(away(4) / away(1)).toBeCloseTo(4, 6);
    expect(distanceFactor(here, here)).toBeGreaterThan(0);
    // At 60 degrees of latitude a degree of longitude is half as long.
    const north = { latitude: 60, longitude: 30 };
    const beside = distanceFactor(north, { latitude: 60, longitude: 31 });
    expect(beside - distanceFactor(north, north)).toBeCloseTo(away(1) / 2, 3);
  });

  it("a cast without latitude or without longitude has no position", () => {
    const [cast] = castsOf({ seed: 5, casts: 1, ocean: "open-ocean", events: [] });
    const { latitude: _, longitude: __, ...nowhere } = cast!;
    expect(positionOf({ ...nowhere, latitude: 10, longitude: 20 })).toEqual({
      latitude: 10,
      longitude: 20,
    });
    expect(positionOf({ ...nowhere, latitude: 10 })).toBeUndefined();
    expect(positionOf({ ...nowhere, longitude: 20 })).toBeUndefined();
  });

  it("the walk is wider than independent steps, because water changes steadily along a section", () => {
    const casts = castsOf({ seed: 5, casts: 2, ocean: "open-ocean", events: [] });
    const step = alongTrack(casts)[1]!.step!;
    let memory = noDeepWaterYet;
    const evolutions = casts.map((data) => {
      const legs = splitLegs(data);
      const thin = thinLayers(data, legs);
      const cast = { id: data.id };
      const scans = { data, legs, thin, within: withinCast(data, legs, thin, cells) };
      const read = deepWaterLine.read!({ cast, cells, scans, bottles: [] });
      const entries = { before: [], after: [] };
      const sources = { cast, cells, bottles: [], copied: new Map(), entries, found: [] };
      const found = deepWaterLine.observe(sources, memory, read);
      memory = found.memory;
      return found.evolutions?.deepWater;
    });
    expect(step.restart).toBe(false);
    expect(evolutions[0]?.kind).toBe("independent");
    expect(evolutions[1]).toMatchObject({ kind: "random-walk" });
    const walked = evolutions[1] as { readonly variance: number };
    expect(walked.variance).toBeGreaterThan(2 * step.walk_ppm2);
  });

  it("thermal lag, which makes the up leg read fresh on every cast, is no change of the water", () => {
    const casts = castsOf({ seed: 5, casts: 6, ocean: "open-ocean", events: [] });
    const lagged = casts.map((cast) => withGain(cast, { down: 0, up: -100 }));
    const walk = (all: readonly Cast[]) => alongTrack(all).at(-1)!.step!.walk_ppm2;
    expect(walk(lagged) / walk(casts)).toBeLessThan(2);
  });

  it("a film that grows in both cells is no change of the water, if bottles show it", () => {
    const casts = castsOf({ seed: 5, casts: 8, ocean: "open-ocean", events: [] });
    const film = casts.map((_, i) => -60 * Math.max(0, i - 2));
    const fouled = casts.map((cast, i) => withGain(cast, { down: film[i]!, up: film[i]! }));
    const walk = (bottlesKnow: boolean) => {
      let memory = noDeepWaterYet;
      let walked = Number.NaN;
      for (const [i, cast] of fouled.entries()) {
        const read = deepWaterRead(cast, cells, thinLayers(cast, splitLegs(cast)));
        const gain = bottlesKnow ? { ppm: film[i]!, variance_ppm2: 100 } : undefined;
        const found = deepWaterOf(read, cells, memory, undefined, gain);
        memory = found.memory;
        walked = found.step!.walk_ppm2;
      }
      return walked;
    };
    expect(walk(true)).toBeLessThan(walk(false) / 2);
  });
});

/** The cast with both cells off by these, ppm. */
function withGain(cast: Cast, ppm: { readonly down: number; readonly up: number }): Cast {
  const { pressure_dbar, primary, secondary } = cast.columns;
  const turn = indexOfDeepest(pressure_dbar);
  const off = ({ temperature_C, conductivity_mS_cm }: CellColumns): CellColumns => ({
    temperature_C,
    conductivity_mS_cm: conductivity_mS_cm.map((c, i) => {
      const leg = i <= turn ? "down" : "up";
      return c * (1 + 1e-6 * ppm[leg]);
    }),
  });
  const columns = { ...cast.columns, primary: off(primary), secondary: off(secondary!) };
  return { ...cast, columns };
}
