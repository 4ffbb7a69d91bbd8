// Facts of the sea that any simulated water must keep.
import { describe, expect, it } from "vitest";
import { ctFromT, pt0FromT, rho, srFromSp } from "../../../src/seawater/index.js";
import { randomStream } from "../../../src/simulate/random.js";
import { drawMotion } from "../../../src/simulate/worlds/motion.js";
import { drawOcean } from "../../../src/simulate/worlds/ocean.js";
import { castWater, type WaterOverTime } from "../../../src/simulate/worlds/water.js";

const seeds = [1, 2, 3, 4, 5, 6, 7, 8];
const bottom = 3000;

function drawn(seed: number) {
  const random = randomStream(seed);
  const ocean = drawOcean(random.split("ocean"), bottom);
  const motion = drawMotion(random.split("motion"), bottom);
  return { ocean, motion, water: castWater(ocean, motion, { km: 40, from_h: 0, to_h: 4 }) };
}

/** Density that the water of a level would have at p dbar, kg/m3. */
function densityOf(water: WaterOverTime, level: number, p: number, hour: number): number {
  const sa = srFromSp(water.salinity(level, hour));
  return rho(sa, ctFromT(sa, water.temperature(level, hour), level), p);
}

const thetaAt = (water: WaterOverTime, p: number, hour: number) =>
  pt0FromT(srFromSp(water.salinity(p, hour)), water.temperature(p, hour), p);

describe("the water of the worlds", () => {
  it.each(seeds)("seed %i: density increases with depth at any time", (seed) => {
    const { water } = drawn(seed);
    for (const hour of [0, 1.7, 4]) {
      let worst = 0;
      for (let p = 0; p < bottom - 5; p += 5) {
        const middle = p + 2.5;
        const gain = densityOf(water, p + 5, middle, hour) - densityOf(water, p, middle, hour);
        worst = Math.min(worst, gain);
      }
      // kg/m3: a hundredth of what 0.001 in salinity makes.
      expect(worst).toBeGreaterThan(-8e-6);
    }
  });

  it.each(seeds)(
    "seed %i: salinity and temperature stay within the ranges of the open ocean",
    (seed) => {
      const { water } = drawn(seed);
      for (let p = 0; p < bottom; p += 10) {
        expect(water.salinity(p, 1)).toBeGreaterThan(31);
        expect(water.salinity(p, 1)).toBeLessThan(38);
        expect(water.temperature(p, 1)).toBeGreaterThan(-1);
        expect(water.temperature(p, 1)).toBeLessThan(31);
      }
    },
  );

  it("internal tides lift water by metres between the legs and leave its temperature-salinity curve unchanged", () => {
    const { ocean, motion } = drawn(3);
    const still = { ...motion, spiceShallow: 0, spiceDeep: 0 };
    const water = castWater(ocean, still, { km: 40, from_h: 0, to_h: 4 });
    let moved = 0;
    for (let p = 600; p < 2800; p += 50) {
      const theta = thetaAt(water, p, 0);
      moved = Math.max(moved, Math.abs(thetaAt(water, p, 4) - theta));
      // The same potential temperature is looked for four hours later.
      let [shallow, deep] = [p - 150, p + 150];
      for (let k = 0; k < 40; k++) {
        const middle = (shallow + deep) / 2;
        if (thetaAt(water, middle, 4) > theta) shallow = middle;
        else deep = middle;
      }
      expect(Math.abs(water.salinity(shallow, 4) - water.salinity(p, 0))).toBeLessThan(5e-4);
    }
    expect(moved).toBeGreaterThan(0.005);
  });

  it("other water on the up leg is as dense as the water that was there", () => {
    const { ocean, motion } = drawn(5);
    const visit = { km: 40, from_h: 0, to_h: 4 };
    const same = castWater(ocean, motion, visit);
    const other = castWater(ocean, motion, { ...visit, otherWaterFrom_h: 2 });
    let differs = 0;
    for (let p = 300; p < 2800; p += 7) {
      expect(other.salinity(p, 1)).toBe(same.salinity(p, 1));
      differs = Math.max(differs, Math.abs(other.salinity(p, 3) - same.salinity(p, 3)));
      const difference = densityOf(other, p, p, 3) - densityOf(same, p, p, 3);
      expect(Math.abs(difference)).toBeLessThan(
        0.1 * Math.abs(other.salinity(p, 3) - same.salinity(p, 3)) + 1e-5,
      );
    }
    expect(differs).toBeGreaterThan(0.003);
  });

  it("deep water of one cruise has one salinity for each potential temperature, to a few thousandths", () => {
    // Published spread of a well-kept line between neighbours: 0.00015; a few thousandths over an ocean basin.
    const { ocean, motion } = drawn(4);
    const stations = [0, 60, 300].map((km) => castWater(ocean, motion, { km, from_h: 0, to_h: 1 }));
    const at = stations.map((water) => water.salinity(2700, 0.5));
    expect(Math.max(...at) - Math.min(...at)).toBeLessThan(0.006);
  });
});
