// The onset of a step within a cast, one cell, recovered from simulated cruises whose truth is known (docs/simulation.md).
import { expect, test } from "vitest";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { balancedSalinity } from "../../../src/evidence/legs/balancedSalinity.js";
import { legsEvidence } from "../../../src/evidence/legs/legs.js";
import type { SimulatedEvent } from "../../../src/simulate/events.js";
import { simulateCruise } from "../../../src/simulate/index.js";
import { seeded } from "../seeded.js";

const slow = 120_000;

/** What the legs say of the onset on each cast of some cruises of five casts. */
function onsets(casts: number, layer_dbar: number, eventOf: (cast: number) => SimulatedEvent[]) {
  return Array.from({ length: casts / 5 }, (_, i) => {
    const { cruise } = simulateCruise({
      seed: 300 + i,
      casts: 5,
      cells: ["primary"],
      sampling: { kind: "averages", layer_dbar },
      events: [1, 2, 3, 4, 5].flatMap((cast) =>
        eventOf(5 * i + cast - 1).map((event) => ({ ...event, cast }) as SimulatedEvent),
      ),
    });
    return cruise.casts.map(({ data }) => legsEvidence(data!, splitLegs(data!), "primary").onset);
  }).flat();
}

test.each([
  { ppm: -100, least: 0.7 },
  { ppm: -150, least: 0.9 },
])(
  "a step of $ppm ppm between 60 and 300 dbar is mostly claimed in averages of 2 dbar, in its place and on its leg",
  ({ ppm, least }) => {
    const casts = 60;
    const placeOf = (cast: number) => 60 + 240 * seeded(cast + 500).uniform();
    const legOf = (cast: number) => (cast % 2 === 0 ? "down" : "up");
    const found = onsets(casts, 2, (cast) => {
      const at = { leg: legOf(cast), pressure_dbar: placeOf(cast) } as const;
      return [{ kind: "film-step", cells: ["primary"], cast, at, ppm }];
    });
    let [claimed, placed, rightLeg] = [0, 0, 0];
    for (const [cast, onset] of found.entries()) {
      if (onset === undefined) continue;
      claimed++;
      if (Math.abs(onset.pressure_dbar - placeOf(cast)) <= 20) placed++;
      if ((legOf(cast) === "down") === onset.probabilityDown > 0.5) rightLeg++;
    }
    expect(claimed / casts).toBeGreaterThan(least);
    expect(placed / claimed).toBeGreaterThan(0.95);
    expect(rightLeg / claimed).toBeGreaterThan(0.85);
  },
  slow,
);

test.each([
  { salinity: 0, layer_dbar: 2, most: 0.01 },
  { salinity: 0, layer_dbar: 10, most: 0.01 },
  { salinity: 0.1, layer_dbar: 10, most: 0.15 },
  { salinity: -0.1, layer_dbar: 10, most: 0.2 },
])(
  "with a front of $salinity between the legs, averages of $layer_dbar dbar, at most $most of the casts show an onset",
  ({ salinity, layer_dbar, most }) => {
    const casts = 100;
    const found = onsets(casts, layer_dbar, (cast) =>
      salinity === 0 ? [] : [{ kind: "front", cast, salinity }],
    );
    const claimed = found.filter((onset) => onset !== undefined).length;
    expect(claimed / casts).toBeLessThanOrEqual(most);
  },
  slow,
);

test("interleaving waters of equal density are recognised by their temperature, smooth heave gives no information", () => {
  // 0.05 K/dbar near 15 degree C, where a kelvin is balanced by some 0.28 g/kg (thermal expansion of 2.1e-4 per K and
  // haline contraction of 7.5e-4 per g/kg at 35, UNESCO's equation of state, from memory).
  const n = 200;
  const level = (value: (k: number) => number) =>
    Float64Array.from({ length: n }, (_, k) => value(k));
  const found = (wiggle: (k: number) => number) =>
    balancedSalinity({
      pressureUp_dbar: level((k) => 2 * k + 2.5 * Math.sin(k / 60) + wiggle(k) / 2),
      pressureDown_dbar: level((k) => 2 * k - 2.5 * Math.sin(k / 60) - wiggle(k) / 2),
      potentialTemperature_C: level((k) => 20 - 0.1 * k + 5),
      salinity: level(() => 35),
      ppmPerSalinity: level(() => 25_000),
    });
  const smooth = found(() => 0).subarray(40, 160);
  expect(Math.max(...smooth.map(Math.abs))).toBeLessThan(60);
  // The up leg meets that temperature 0.2 dbar deeper at one place: it is warmer by 0.01 K there, saltier by 0.0028.
  const peak = found((k) => (k === 100 ? 0.2 : 0))[100]! - found(() => 0)[100]!;
  expect(peak).toBeGreaterThan(0.7 * 70);
  expect(peak).toBeLessThan(1.2 * 70);
});
