import { describe, expect, it } from "vitest";
import type { Cruise } from "../../src/cast/cruise.js";
import { type Scenario, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { verdictSchema } from "../../src/verdict/verdictSchema.js";

const usual = {
  casts: 7,
  deepest_dbar: 2000,
  sampling: { kind: "averages", layer_dbar: 2 },
} as const;
const assessed = (scenario: Omit<Scenario, "casts"> & { casts?: number }) => {
  const { cruise, truth } = simulateCruise({ ...usual, ...scenario });
  return { document: assessCruise(cruise), cruise, truth };
};

describe("errors that only some lines of evidence can see", () => {
  it("a transient is reported on its cast, without a cleaning", () => {
    const { document } = assessed({
      seed: 41,
      events: [
        {
          kind: "transient",
          cells: ["primary"],
          cast: 5,
          at: { leg: "down", pressure_dbar: 700 },
          ppm: -500,
          recovery_dbar: 200,
        },
      ],
    });
    const [then, after] = [document.casts[4]!, document.casts[5]!];
    expect(then.cells.primary!.causes[0]!.cause).toBe("transient");
    expect(then.cells.primary!.advice.deepClean).toBe(false);
    expect(after.cells.primary!.causes[0]!.cause).toBe("sound");
    expect(document.casts.map(({ cells }) => cells.secondary!.causes[0]!.cause)).not.toContain(
      "transient",
    );
  });

  it("a film that came in the last 60 dbar of a cast is reported on that cast, and a lasting one is no transient", () => {
    for (const [seed, sampling] of [
      [51, { kind: "averages", layer_dbar: 10 }],
      [52, usual.sampling],
    ] as const) {
      const { document, truth } = assessed({
        seed,
        sampling,
        casts: 4,
        events: [
          {
            kind: "film-step",
            cells: ["secondary"],
            cast: 4,
            at: { leg: "up", pressure_dbar: 60 },
            ppm: -200,
          },
        ],
      });
      const { causes, change, gainError } = document.casts[3]!.cells.secondary!;
      expect(causes[0]!.cause).toBe("fouling");
      expect(causes[0]!.probability).toBeGreaterThan(0.8);
      expect(change).toMatchObject({ kind: "step", sinceCast: "004", when: "within", leg: "up" });
      expect(Math.abs(change.pressure_dbar! - 60)).toBeLessThan(20);
      const { ppm, standardUncertainty } = gainError.up;
      const off = ppm - truth[3]!.cells.secondary!.gain.up;
      expect(Math.abs(off)).toBeLessThan(3 * standardUncertainty);
    }
  });

  it("films of different sizes that came to both cells at once are reported in both", () => {
    for (const [primary, secondary] of [
      [-150, -400],
      [-300, -420],
    ] as const) {
      const film = (cell: "primary" | "secondary", ppm: number) =>
        ({ kind: "film-step", cells: [cell], cast: 5, at: "before-cast", ppm }) as const;
      const { document, truth } = assessed({
        seed: 53,
        sampling: { kind: "averages", layer_dbar: 10 },
        events: [film("primary", primary), film("secondary", secondary)],
      });
      for (const cell of ["primary", "secondary"] as const) {
        const { causes, gainError } = document.casts[4]!.cells[cell]!;
        expect(causes[0]!.cause).toBe("fouling");
        const off = gainError.up.ppm - truth[4]!.cells[cell]!.gain.up;
        expect(Math.abs(off)).toBeLessThan(3 * gainError.up.standardUncertainty);
      }
    }
  });

  it("a thermometer error is distinguished from an error of its cell, with its size", () => {
    const { document, truth } = assessed({
      seed: 42,
      events: [{ kind: "temperature-error", cell: "primary", fromCast: 4, mK: 9 }],
    });
    const last = document.casts.at(-1)!.cells.primary!;
    expect(last.causes[0]!.cause).toBe("temperature-error");
    const { millikelvin, standardUncertainty } = last.temperatureError!;
    expect(Math.abs(millikelvin - 9)).toBeLessThan(3 * standardUncertainty + 1);
    expect(Math.abs(last.gainError.up.ppm - truth.at(-1)!.cells.primary!.gain.up)).toBeLessThan(60);
    expect(last.advice.deepClean).toBe(false);
  });

  it("a lag of three and a half times the usual is thermal lag on that cast and on no other", () => {
    const { document } = assessed({
      seed: 43,
      events: [{ kind: "thermal-lag", cells: ["primary"], cast: 6, factor: 3.5 }],
    });
    const named = document.casts.map(({ cells }) => cells.primary!.causes[0]!.cause);
    expect(["thermal-lag", "flow"]).toContain(named[5]);
    expect(named.filter((cause) => cause !== "sound").length).toBe(1);
    const { thermalLag } = document.casts[5]!.response!.primary!;
    expect(thermalLag!.timesUsual).toBeGreaterThan(2);
  });

  it("a cell with a seventh of its flow is distinguished from a fouled one, and no cleaning is advised for it", () => {
    const { document } = assessed({
      seed: 44,
      casts: 5,
      deepest_dbar: 500,
      sampling: { kind: "time-series", rate_Hz: 4 },
      events: [{ kind: "flow-loss", cells: ["primary"], cast: 5, flow: 0.15 }],
    });
    const last = document.casts.at(-1)!;
    expect(last.cells.primary!.causes[0]!.cause).toBe("flow");
    expect(last.cells.primary!.advice.deepClean).toBe(false);
    expect(last.cells.secondary!.causes[0]!.cause).toBe("sound");
    expect(last.cells.primary!.causes[0]!.because).toMatch(/s later than usual.*noise/);
  });

  it("an offset shows in air, and is reported as an offset", () => {
    const { document } = assessed({
      seed: 45,
      events: [
        { kind: "additive-offset", cell: "primary", fromCast: 1, microsiemens_cm: 9 },
        ...[1, 2, 3, 4, 5, 6, 7].map((afterCast) => ({
          kind: "air-reading" as const,
          afterCast,
          cell: "primary" as const,
          rinsed: true,
          drained: true,
          water_microsiemens_cm: 0.1,
        })),
      ],
    });
    const { microsiemens_cm, standardUncertainty } =
      document.casts.at(-1)!.cells.primary!.additiveOffset!;
    expect(Math.abs(microsiemens_cm - 9)).toBeLessThan(3 * standardUncertainty);
    expect(document.casts.at(-1)!.evidence.some(({ line }) => line === "air-zero")).toBe(true);
    expect(document.casts.at(-1)!.cells.secondary!.additiveOffset).toBeUndefined();
  });

  it("without bottles, deep water shows an equal change of both cells", () => {
    const { document } = assessed({
      seed: 46,
      deepest_dbar: 4000,
      sampling: { kind: "averages", layer_dbar: 10 },
      bottles: 0,
      bottlePressures_dbar: [],
      events: [
        {
          kind: "film-step",
          cells: ["primary", "secondary"],
          cast: 6,
          at: "before-cast",
          ppm: -600,
        },
      ],
    });
    const gains = document.casts.map(({ cells }) => cells.primary!.gainError.up);
    expect(gains[5]!.ppm - gains[4]!.ppm).toBeLessThan(-200);
  });

  it("stuck readings make the data questionable, for any gain, and the finding names the action", () => {
    const { cruise } = simulateCruise({
      ...usual,
      seed: 47,
      casts: 2,
      deepest_dbar: 600,
      sampling: { kind: "time-series", rate_Hz: 4 },
    });
    const broken: Cruise = {
      ...cruise,
      casts: cruise.casts.map((cast, i) => {
        if (i === 0 || cast.data === undefined) return cast;
        const { columns } = cast.data;
        const stood = columns.primary.conductivity_mS_cm.slice();
        const middle = Math.floor(stood.length / 3);
        stood.fill(stood[middle]!, middle, middle + 400);
        const primary = { ...columns.primary, conductivity_mS_cm: stood };
        return { ...cast, data: { ...cast.data, columns: { ...columns, primary } } };
      }),
    };
    const last = assessCruise(broken).casts.at(-1)!;
    expect(last.health!.map(({ kind }) => kind)).toContain("stuck");
    expect(last.health!.find(({ kind }) => kind === "stuck")!.mend.length).toBeGreaterThan(10);
    expect(["questionable", "bad"]).toContain(last.data);
  });

  it("verdicts with every kind of evidence conform to the published schema", () => {
    const { document } = assessed({
      seed: 44,
      casts: 4,
      deepest_dbar: 400,
      sampling: { kind: "time-series", rate_Hz: 4 },
    });
    expect(verdictSchema.safeParse(JSON.parse(JSON.stringify(document))).error).toBeUndefined();
    expect(document.casts.at(-1)!.response!.primary!.alignment).toBeDefined();
  });
});
