// Recovery of what was put into simulated casts (docs/simulation.md); nothing here is real.
import { describe, expect, test } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { cellsOnPath } from "../../src/evidence/cellsOnPath.js";
import { excursionsOnCast } from "../../src/evidence/excursionsOnCast.js";
import { excursionWeight } from "../../src/evidence/excursionWeight.js";
import { type Scenario, simulateCruise } from "../../src/simulate/index.js";

function excursionsOf(scenario: Omit<Scenario, "casts">) {
  const { cruise } = simulateCruise({ ...scenario, casts: 1 });
  const cast = cruise.casts[0]!.data!;
  return excursionsOnCast(cellsOnPath(cast, splitLegs(cast)));
}

test("what faded again within the cast is found with its place, size and recovery", () => {
  const at = { leg: "down", pressure_dbar: 1100 } as const;
  const event = { kind: "transient", cells: ["primary"], cast: 1, at, ppm: -300 } as const;
  const [primary] = excursionsOf({ seed: 3, events: [{ ...event, recovery_dbar: 200 }] });
  expect(primary!.leg).toBe("down");
  expect(Math.abs(primary!.onset_dbar.value - 1100)).toBeLessThan(20);
  expect(Math.abs(primary!.ppm.value + 300)).toBeLessThan(3 * primary!.ppm.standardUncertainty);
  const { value, standardUncertainty } = primary!.recovery_dbar;
  expect(Math.abs(value - 200)).toBeLessThan(3 * standardUncertainty);
  expect(primary!.logBayesFactor.nothing).toBeGreaterThan(Math.log(1000));
  expect(primary!.logBayesFactor.step).toBeGreaterThan(Math.log(1000));
});

describe("the share of an excursion that is left", () => {
  const known = {
    leg: "down" as const,
    onset_dbar: { value: 700, standardUncertainty: 5 },
    recovery_dbar: { value: 100, standardUncertainty: 10 },
    deepest_dbar: 1000,
  };
  test("is none before it came, all as it came, and 1/e after each recovery along the path", () => {
    expect(excursionWeight(known, "down", 699)).toBe(0);
    expect(excursionWeight(known, "down", 700)).toBe(1);
    expect(excursionWeight(known, "down", 800)).toBeCloseTo(Math.exp(-1), 12);
    // 300 dbar to the turn and 100 up again.
    expect(excursionWeight(known, "up", 900)).toBeCloseTo(Math.exp(-4), 12);
  });
});
