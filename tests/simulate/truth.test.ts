import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SimulatedEvent } from "../../src/simulate/events.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { gainAt, truthOf } from "../../src/simulate/truth.js";

const scenario = (events: readonly SimulatedEvent[], more: Partial<Scenario> = {}): Scenario => ({
  seed: 1,
  casts: 10,
  deepest_dbar: 1000,
  hoursBetweenCasts: 12,
  events,
  ...more,
});
const primary = (events: readonly SimulatedEvent[], more: Partial<Scenario> = {}) =>
  truthOf(scenario(events, more)).map(({ cells }) => cells.primary!);
const step = (
  cast: number,
  ppm: number,
  at: "before-cast" | { leg: "down" | "up"; pressure_dbar: number },
) => ({ kind: "film-step", cells: ["primary"], cast, at, ppm }) as const;

describe("the truth of a scenario", () => {
  it("without events a cell is sound, and its true gain is the residual of its calibration", () => {
    for (const cell of primary([], { calibrationResidual_ppm: { primary: 12 } })) {
      expect(cell.gain).toEqual({ down: 12, up: 12 });
      expect(cell.cause).toBe("sound");
      expect(gainAt(cell, "up", 500)).toBe(12);
    }
  });

  it("a film stays from its cast to the end, and the other cell stays clean", () => {
    const truth = truthOf(scenario([step(4, -200, "before-cast")]));
    expect(truth.map(({ cells }) => cells.primary!.gain.down)).toEqual([
      0, 0, 0, -200, -200, -200, -200, -200, -200, -200,
    ]);
    expect(truth.every(({ cells }) => cells.secondary!.gain.up === 0)).toBe(true);
    expect(truth.map(({ cells }) => cells.primary!.cause)).toEqual([
      ...new Array<string>(3).fill("sound"),
      ...new Array<string>(7).fill("fouling"),
    ]);
  });

  it("a film that comes within a cast changes the gain only from that place on", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("down" as const, "up" as const),
        fc.integer({ min: 1, max: 999 }),
        (leg, pressure_dbar) => {
          const at = { leg, pressure_dbar };
          const cell = primary([step(5, -100, at)])[4]!;
          expect(cell.film).toEqual({ down: 0, up: -100 });
          expect(cell.onset).toEqual(at);
          const before = leg === "down" ? pressure_dbar - 0.5 : pressure_dbar + 0.5;
          const after = leg === "down" ? pressure_dbar + 0.5 : pressure_dbar - 0.5;
          expect(gainAt(cell, leg, before)).toBe(0);
          expect(gainAt(cell, leg, after)).toBe(-100);
          expect(gainAt(cell, "down", 1000)).toBe(gainAt(cell, "up", 1000));
        },
      ),
      { seed: 1 },
    );
  });

  it("the true gain is continuous except at events, within casts and between them", () => {
    const casts = primary([
      step(3, -50, { leg: "down", pressure_dbar: 300 }),
      step(3, -80, { leg: "up", pressure_dbar: 600 }),
      { kind: "pressure-response", cell: "primary", ppmPer1000dbar: -40 },
    ]);
    const path = casts.flatMap((cell) => {
      const down = Array.from({ length: 1001 }, (_, p) => gainAt(cell, "down", p));
      const up = Array.from({ length: 1001 }, (_, p) => gainAt(cell, "up", 1000 - p));
      return [...down, ...up];
    });
    const jumps = path.slice(1).map((gain, i) => gain - path[i]!);
    const large = jumps.filter((jump) => Math.abs(jump) > 0.041);
    expect(large.map(Math.round)).toEqual([-50, -80]);
  });

  it("a growing film grows in proportion to time, up to the given cast", () => {
    const growth = {
      kind: "film-growth",
      cell: "primary",
      fromCast: 3,
      untilCast: 6,
      ppmPerDay: -20,
    } as const;
    const films = primary([growth]).map(({ film }) => film.down);
    expect(films).toEqual([0, 0, -10, -20, -30, -40, -40, -40, -40, -40]);
  });

  it("a cleaning or a shedding leaves the given share of a film and does not change the calibration", () => {
    const cells = primary([
      step(2, -400, "before-cast"),
      { kind: "calibration-shift", cell: "primary", fromCast: 1, ppm: 70 },
      { kind: "cleaning", afterCast: 4, intensity: "soak", retained: 0.5 },
      { kind: "shed", cells: ["primary"], cast: 8, retained: 0.1 },
    ]);
    expect(cells.map(({ film }) => film.down)).toEqual([
      0, -400, -400, -400, -200, -200, -200, -20, -20, -20,
    ]);
    expect(cells.every(({ cleanGain_ppm }) => cleanGain_ppm === 70)).toBe(true);
  });

  it("a transient decays by a factor e over its recovery distance, and none is left on the next cast", () => {
    const cells = primary([
      {
        kind: "transient",
        cells: ["primary"],
        cast: 2,
        at: { leg: "down", pressure_dbar: 900 },
        ppm: -1000,
        recovery_dbar: 50,
      },
    ]);
    const [, hit, next] = cells;
    expect(gainAt(hit!, "down", 899)).toBe(0);
    expect(gainAt(hit!, "down", 900)).toBe(-1000);
    expect(gainAt(hit!, "down", 950)).toBeCloseTo(-1000 / Math.E, 6);
    expect(gainAt(hit!, "up", 950)).toBeCloseTo(-1000 * Math.exp(-3), 6);
    expect(hit!.cause).toBe("transient");
    expect(Math.abs(hit!.film.up)).toBeLessThan(1e-4);
    expect(next!.film.down).toBe(0);
    expect(next!.cause).toBe("sound");
  });

  it("the true cause names the cell first, then the references, then the water", () => {
    const truth = primary([
      step(6, -90, "before-cast"),
      { kind: "cleaning", afterCast: 8, intensity: "soak", retained: 0 },
      { kind: "calibration-shift", cell: "primary", fromCast: 4, ppm: 120 },
      { kind: "reference-offset", of: "run 1", salinity: 0.01 },
      { kind: "reference-offset", of: [4, 10], salinity: -0.01 },
      { kind: "front", cast: 1, salinity: 0.1 },
      { kind: "front", cast: 3, salinity: 0.1 },
    ]);
    expect(truth.map(({ cause }) => cause)).toEqual([
      "reference-error",
      "reference-error",
      "water",
      "calibration-shift",
      "calibration-shift",
      "fouling",
      "fouling",
      "fouling",
      "calibration-shift",
      "calibration-shift",
    ]);
    expect(truth[0]!.causes).toEqual(["reference-error", "water"]);
    expect(truth[9]!.causes).toEqual(["calibration-shift", "reference-error"]);
  });

  it("the true cause names thermometer, lag, flow or pressure response only where its effect is large", () => {
    const truth = primary([
      { kind: "flow-loss", cells: ["primary"], cast: 1, flow: 0.3 },
      { kind: "thermal-lag", cells: ["primary"], cast: 2, factor: 3 },
      { kind: "temperature-error", cell: "primary", fromCast: 4, mK: -5 },
    ]);
    expect(truth.slice(0, 5).map(({ cause }) => cause)).toEqual([
      "flow",
      "thermal-lag",
      "sound",
      "temperature-error",
      "temperature-error",
    ]);
    const squeezed = primary([{ kind: "pressure-response", cell: "primary", ppmPer1000dbar: 60 }]);
    expect(squeezed.every(({ cause }) => cause === "pressure-response")).toBe(true);
    expect(gainAt(squeezed[0]!, "up", 500)).toBe(30);
  });

  it("impossible values of a scenario are refused, with the value found", () => {
    const bad: readonly (readonly [SimulatedEvent | Partial<Scenario>, RegExp])[] = [
      [step(11, -100, "before-cast"), /a cast from 1 to 10; found 11/],
      [step(3, 100, "before-cast"), /negative.*found 100/],
      [step(3, -100, { leg: "up", pressure_dbar: 1001 }), /within the cast; found 1001/],
      [{ kind: "cleaning", afterCast: 2, intensity: "soak", retained: 1.5 }, /0 to 1; found 1.5/],
      [{ kind: "leak", cast: 2, bottle: 13, share: 0.1 }, /a bottle of the cast; found 13/],
      [{ casts: 0 }, /casts, 1 to 9999; found 0/],
      [{ deepest_dbar: Number.NaN }, /found NaN/],
      [{ cells: ["secondary"] }, /the first cell primary; found secondary/],
      [{ bottlePressures_dbar: [100, 200] }, /from the deepest up.*found 200/],
      [{ sampling: { kind: "averages", layer_dbar: 0 } }, /above 0; found 0/],
    ];
    for (const [fault, message] of bad) {
      const events = "kind" in fault ? [fault] : [];
      const more = "kind" in fault ? {} : fault;
      expect(() => truthOf(scenario(events, more)), String(message)).toThrow(message);
    }
    const one = { cells: ["primary"] } as const;
    const onSecond = {
      kind: "film-growth",
      cell: "secondary",
      fromCast: 2,
      ppmPerDay: -1,
    } as const;
    expect(() => truthOf(scenario([onSecond], one))).toThrow(
      /a cell of this package; found secondary/,
    );
  });
});
