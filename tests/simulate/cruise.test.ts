import { describe, expect, it } from "vitest";
import { splitLegs } from "../../src/cast/splitLegs.js";
import { spFromC } from "../../src/seawater/index.js";
import { simulateCruise } from "../../src/simulate/cruise.js";
import type { SimulatedEvent } from "../../src/simulate/events.js";
import type { Scenario } from "../../src/simulate/scenario.js";

const base: Scenario = { seed: 11, casts: 6, deepest_dbar: 1500 };
const withEvents = (...events: SimulatedEvent[]) => simulateCruise({ ...base, events }).cruise;
const plain = simulateCruise(base);
const columnsOf = (cruise: typeof plain.cruise, cast: number) =>
  cruise.casts[cast - 1]!.data!.columns;
const salinityOf = (columns: ReturnType<typeof columnsOf>, cell: "primary" | "secondary") => {
  const { temperature_C, conductivity_mS_cm } = columns[cell]!;
  return conductivity_mS_cm.map((c, i) => spFromC(c, temperature_C[i]!, columns.pressure_dbar[i]!));
};
const film = (cast: number, ppm: number): SimulatedEvent => ({
  kind: "film-step",
  cells: ["primary"],
  cast,
  at: "before-cast",
  ppm,
});

describe("a simulated cruise", () => {
  it("the same seed gives the same cruise to the last digit, another seed another cruise", () => {
    expect(simulateCruise(base)).toEqual(plain);
    const other = simulateCruise({ ...base, seed: 12 }).cruise;
    expect(columnsOf(other, 1).primary.temperature_C).not.toEqual(
      columnsOf(plain.cruise, 1).primary.temperature_C,
    );
  });

  it("a simulated cruise is marked as invented", () => {
    expect(plain.cruise.note).toMatch(/invented/);
  });

  it("changing one event does not change the noise of anything else", () => {
    const fouled = withEvents(film(4, -300), { kind: "front", cast: 5, salinity: 0.1 });
    for (const cast of [1, 2, 3, 6]) {
      const [a, b] = [columnsOf(fouled, cast), columnsOf(plain.cruise, cast)];
      expect(a.secondary).toEqual(b.secondary);
      expect(a.primary.temperature_C).toEqual(b.primary.temperature_C);
      if (cast < 4) expect(a.primary).toEqual(b.primary);
    }
    // On the fouled cast only the primary's conductivity moves, by the film alone.
    const [a, b] = [columnsOf(fouled, 4), columnsOf(plain.cruise, 4)];
    expect(a.secondary).toEqual(b.secondary);
    a.primary.conductivity_mS_cm.forEach((c, i) => {
      expect((c / b.primary.conductivity_mS_cm[i]! - 1) * 1e6).toBeCloseTo(-300, 1);
    });
    const bottlesOf = (cruise: typeof fouled) => cruise.bottles.map(({ salinity }) => salinity);
    const upTo = (values: readonly number[]) => values.slice(0, 4 * 12);
    expect(upTo(bottlesOf(fouled))).toEqual(upTo(bottlesOf(plain.cruise)));
  });

  it("bottles do not change the noise of the sensors", () => {
    const fewer = simulateCruise({ ...base, laboratory: { leakRate: 1 } }).cruise;
    expect(columnsOf(fewer, 3)).toEqual(columnsOf(plain.cruise, 3));
  });

  it("a film of 100 ppm makes a cell read 0.0039 fresh at SP 35 (1e-4 of conductivity, PSS-78)", () => {
    const fouled = salinityOf(columnsOf(withEvents(film(1, -100)), 1), "primary");
    const clean = salinityOf(columnsOf(plain.cruise, 1), "primary");
    fouled.forEach((sp, i) => {
      expect((sp - clean[i]!) * (35 / sp)).toBeCloseTo(-0.0039, 4);
    });
  });

  it("a cast of averages has no time, and its legs split where the package turned", () => {
    const cast = plain.cruise.casts[0]!.data!;
    const legs = splitLegs(cast);
    expect(cast.columns.time_s).toBeUndefined();
    expect(cast.columns.pressure_dbar.length).toBe(300);
    expect(legs.down.length).toBeGreaterThan(140);
    expect(legs.up.length).toBeGreaterThan(140);
    expect(Math.max(...legs.down)).toBeLessThan(Math.min(...legs.up));
  });

  it("a cast of scans has a soak, a lowering, bottle stops and a hoist under the ship's heave", () => {
    const { cruise } = simulateCruise({
      seed: 3,
      casts: 1,
      deepest_dbar: 400,
      bottles: 6,
      sampling: { kind: "time-series", rate_Hz: 8, shipHeave_dbar: 2 },
    });
    const cast = cruise.casts[0]!.data!;
    const legs = splitLegs(cast);
    const { time_s, pressure_dbar } = cast.columns;
    expect(time_s!.at(-1)).toBeGreaterThan(2 * 400 + 6 * 45);
    expect(Math.max(...pressure_dbar)).toBeLessThan(402);
    expect(Math.max(...pressure_dbar)).toBeGreaterThan(398);
    expect(legs.leftOut.soak / 8).toBeGreaterThan(100);
    expect(legs.leftOut.bottleStops / 8).toBeGreaterThan(5 * 20);
    const backwards = pressure_dbar
      .subarray(legs.down[0], legs.down.at(-1))
      .filter((p, i, own) => i > 0 && p < own[i - 1]!);
    expect(cruise.bottles.map(({ time_s: t }) => t)).toEqual(
      cruise.bottles.map(({ time_s: t }) => t).toSorted((a, b) => a! - b!),
    );
    cruise.bottles.forEach(({ time_s: t, pressure_dbar: p }) => {
      expect(Math.abs(pressure_dbar[Math.round(8 * t!)]! - p)).toBeLessThan(2);
    });
    expect(backwards.length).toBeGreaterThan(0);
  });

  it("a film within a cast changes the readings from its place on, in scans and in averages", () => {
    const event: SimulatedEvent = {
      kind: "film-step",
      cells: ["primary"],
      cast: 1,
      at: { leg: "up", pressure_dbar: 200 },
      ppm: -500,
    };
    const scenario: Scenario = {
      seed: 3,
      casts: 1,
      deepest_dbar: 400,
      bottlePressures_dbar: [300, 100],
      sampling: { kind: "time-series", rate_Hz: 4, shipHeave_dbar: 0 },
    };
    const [clean, fouled] = [[], [event]].map(
      (events) => simulateCruise({ ...scenario, events }).cruise,
    );
    const ratios = columnsOf(fouled!, 1).primary.conductivity_mS_cm.map(
      (c, i) => 1e6 * (c / columnsOf(clean!, 1).primary.conductivity_mS_cm[i]! - 1),
    );
    const first = ratios.findIndex((ppm) => ppm < -1);
    expect(columnsOf(fouled!, 1).pressure_dbar[first]).toBeCloseTo(200, 0);
    expect(ratios.subarray(first).every((ppm) => Math.abs(ppm + 500) < 0.1)).toBe(true);
    expect(ratios.subarray(0, first).every((ppm) => ppm === 0)).toBe(true);
    const closures = fouled!.bottles.map(({ ctd }, i) => {
      const before = clean!.bottles[i]!.ctd!.primary!.conductivity_mS_cm;
      return Math.round(1e6 * (ctd!.primary!.conductivity_mS_cm / before - 1));
    });
    expect(closures).toEqual([0, -500]);
  });

  it("the record has each cleaning, the cell if only one was cleaned, and no true result", () => {
    const { maintenance } = withEvents(
      { kind: "cleaning", afterCast: 4, cells: ["secondary"], intensity: "wash", retained: 0.1 },
      { kind: "cleaning", afterCast: 2, intensity: "soak", retained: 0.4 },
    );
    expect(maintenance.map(({ action, afterCast, cell }) => [action, afterCast, cell])).toEqual([
      ["soak", "002", undefined],
      ["wash", "004", "secondary"],
    ]);
    expect(maintenance.some((entry) => "retained" in entry)).toBe(false);
    const [, , third] = plain.cruise.casts;
    expect(Date.parse(maintenance[0]!.time!)).toBeLessThan(Date.parse(third!.start!));
  });

  it("a cruise with a single cell has the same water", () => {
    const { cruise, truth } = simulateCruise({ ...base, cells: ["primary"] });
    expect(columnsOf(cruise, 1)).not.toHaveProperty("secondary");
    expect(cruise.bottles[0]!.ctd).not.toHaveProperty("secondary");
    expect(truth[0]!.cells).not.toHaveProperty("secondary");
    expect(columnsOf(cruise, 1).primary).toEqual(columnsOf(plain.cruise, 1).primary);
  });

  it("thermal lag reads salty going down and fresh coming up, by alpha tau dT/dt (Lueck and Picklo 1990)", () => {
    const without = withEvents({ kind: "thermal-lag", cells: ["primary"], cast: 2, factor: 0 });
    const a = columnsOf(plain.cruise, 2);
    const b = columnsOf(without, 2);
    const [lagged, prompt] = [salinityOf(a, "primary"), salinityOf(b, "primary")];
    const temperature = a.primary.temperature_C;
    const n = lagged.length;
    for (const [from, to, sign] of [
      [0, n / 2, 1],
      [n / 2, n, -1],
    ] as const) {
      let error = 0;
      let expected = 0;
      for (let i = from + 1; i < to; i++) {
        const p = a.pressure_dbar[i]!;
        if (p < 100 || p > 400) continue;
        error += lagged[i]! - prompt[i]!;
        // One layer of 10 dbar in 10 s; 1 K of temperature is about 0.97 of salinity in this water.
        expected -= 0.97 * 0.0245 * 9.5 * ((temperature[i]! - temperature[i - 1]!) / 10);
      }
      expect(sign * error).toBeGreaterThan(0);
      expect(error / expected).toBeGreaterThan(0.8);
      expect(error / expected).toBeLessThan(1.25);
    }
  });

  it("lost flow changes the readings in the thermocline and not in deep water", () => {
    const slow = withEvents({ kind: "flow-loss", cells: ["primary"], cast: 2, flow: 0.15 });
    const [a, b] = [
      salinityOf(columnsOf(slow, 2), "primary"),
      salinityOf(columnsOf(plain.cruise, 2), "primary"),
    ];
    const pressure = columnsOf(slow, 2).pressure_dbar;
    const rms = (holds: (p: number) => boolean) => {
      const own = Array.from(a, (sp, i) => sp - b[i]!).filter((_, i) => holds(pressure[i]!));
      return Math.sqrt(own.reduce((sum, d) => sum + d * d, 0) / own.length);
    };
    expect(rms((p) => p > 40 && p < 200)).toBeGreaterThan(5 * rms((p) => p > 1000));
  });

  it("a thermometer 5 mK high makes salinity 0.005 too fresh (1 mK is 0.001)", () => {
    const warm = withEvents({ kind: "temperature-error", cell: "primary", fromCast: 3, mK: 5 });
    const [a, b] = [
      salinityOf(columnsOf(warm, 3), "primary"),
      salinityOf(columnsOf(plain.cruise, 3), "primary"),
    ];
    const mean = a.reduce((sum, sp, i) => sum + sp - b[i]!, 0) / a.length;
    expect(mean).toBeGreaterThan(-0.0056);
    expect(mean).toBeLessThan(-0.0044);
  });
});
