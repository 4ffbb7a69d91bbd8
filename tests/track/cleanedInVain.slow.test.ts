// What cleanings in vain say of a film and of a shift, on invented cruises. Common practice, no source: a jump that cleaning
// does not move may be a film of the kind that stays or a shift of the calibration, and one try does not tell which.
import { describe, expect, it } from "vitest";
import type { MaintenanceEvent } from "../../src/cast/maintenance.js";
import { type SimulatedEvent, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const jump: SimulatedEvent = {
  kind: "film-step",
  cells: ["primary"],
  cast: 3,
  at: "before-cast",
  ppm: -250,
};
const { cruise } = simulateCruise({
  seed: 12,
  casts: 7,
  deepest_dbar: 1500,
  sampling: { kind: "averages", layer_dbar: 10 },
  cells: ["primary", "secondary"],
  events: [jump],
});
const entry = (action: "rinse" | "soak", cast: number): MaintenanceEvent => ({
  action,
  afterCast: cruise.casts[cast - 1]!.id,
});
const withRecord = (...maintenance: readonly MaintenanceEvent[]) =>
  assessCruise({ ...cruise, maintenance });
const fouled = (document: ReturnType<typeof withRecord>, cast: number) =>
  document.casts[cast - 1]!.cells.primary!.causes.find(({ cause }) => cause === "fouling")
    ?.probability ?? 0;

const soakedOnce = withRecord(entry("soak", 4));

describe("a jump of -250 ppm that nothing moves", () => {
  it("the probability of a film does not change with further rinses after the first", () => {
    const once = withRecord(entry("rinse", 3));
    const always = withRecord(...[3, 4, 5, 6].map((cast) => entry("rinse", cast)));
    for (const cast of [4, 5, 6, 7]) {
      // Hypotheses of small weight are dropped, and similar ones merged, at other times.
      expect(Math.abs(fouled(always, cast) - fouled(once, cast))).toBeLessThan(1e-4);
      expect(always.casts[cast - 1]!.cells.primary!.gainError.up.ppm).toBeCloseTo(
        once.casts[cast - 1]!.cells.primary!.gainError.up.ppm,
        2,
      );
    }
  });

  it("a jump is most probably a film before cleaning, and film or shift after one failed soak", () => {
    expect(fouled(soakedOnce, 4)).toBeGreaterThan(0.85);
    for (const cast of [5, 6, 7]) {
      expect(fouled(soakedOnce, cast)).toBeGreaterThan(0.1);
      expect(fouled(soakedOnce, cast)).toBeLessThan(0.9);
    }
  });

  it("each failed soak lowers the probability of a film, the second less than the first", () => {
    const odds = (p: number) => Math.log(p / (1 - p));
    const never = odds(fouled(withRecord(), 7));
    const once = odds(fouled(soakedOnce, 7));
    const twice = odds(fouled(withRecord(entry("soak", 4), entry("soak", 5)), 7));
    expect(once).toBeLessThan(never);
    expect(twice).toBeLessThan(once);
    expect(once - twice).toBeLessThan(never - once);
  });
});
