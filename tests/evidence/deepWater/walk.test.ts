// How far the deep water may have changed from one cast to the next.
import { describe, expect, it } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { thinLayers } from "../../../src/cast/thinLayers.js";
import { noDeepWaterYet } from "../../../src/evidence/deepWater/deepWater.js";
import { deepWaterLine } from "../../../src/evidence/deepWater/deepWaterLine.js";
import { distanceFactor } from "../../../src/evidence/deepWater/deepWaterNoise.js";
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
});
