// Faults of sensors, put into sound simulated casts at known places: how many of them are found, where, and
// whether anything else is claimed beside.
import { describe, expect, it } from "vitest";
import type { Cast } from "../../src/cast/cast.js";
import type { HealthKind } from "../../src/health/finding.js";
import { oceanNames, type RandomStream, randomStream } from "../../src/simulate/index.js";
import { healthOf, kindsOf, metres, scansAt, soundCast, steepest, withFault } from "./faults.js";

const slow = 120_000;
const rates = [24, 4] as const;
const seeds = [20, 21, 22, 23];
const sound = new Map<string, Cast>();

/** Two cells at even seeds, one at odd ones; each simulated once. */
function castAt(ocean: (typeof oceanNames)[number], rate: number, seed: number): Cast {
  const key = `${ocean} ${rate} ${seed}`;
  const cells = seed % 2 === 0 ? (["primary", "secondary"] as const) : (["primary"] as const);
  const cast =
    sound.get(key) ??
    soundCast({ seed, ocean, cells, sampling: rate === 0 ? metres : scansAt(rate) });
  sound.set(key, cast);
  return cast;
}

/** The share of faulted casts in which the kind was found, and all other kinds that were. */
function overCasts(
  kind: HealthKind,
  put: (cast: Cast, rate: number, draw: RandomStream) => Cast,
  at: readonly number[] = rates,
) {
  let found = 0;
  let casts = 0;
  const others: HealthKind[] = [];
  for (const ocean of oceanNames) {
    for (const rate of at) {
      for (const seed of seeds) {
        const cast = put(castAt(ocean, rate, seed), rate, randomStream(seed).split(kind));
        const kinds = kindsOf(healthOf(cast).findings);
        casts++;
        if (kinds.includes(kind)) found++;
        others.push(...kinds.filter((other) => other !== kind));
      }
    }
  }
  return { share: found / casts, others };
}

describe("spikes", () => {
  it.each(["conductivity_mS_cm", "temperature_C"] as const)(
    "five in a thousand scans of %s, of 0.03 to 0.3 either way, are found in all casts at 24 and 4 Hz",
    (sensor) => {
      const { share, others } = overCasts("spikes", (cast, _, draw) =>
        withFault(cast, "primary", sensor, (column) => {
          for (let i = 10; i < column.length - 10; i++) {
            if (draw.uniform() > 0.005) continue;
            column[i]! += (draw.uniform() < 0.5 ? -1 : 1) * (0.03 + 0.27 * draw.uniform());
          }
        }),
      );
      expect(share).toBe(1);
      expect(others).toEqual([]);
    },
    slow,
  );

  it("the reported rate of spikes is right within a tenth", () => {
    const cast = castAt("open-ocean", 24, 20);
    const n = cast.columns.pressure_dbar.length;
    const spiked = withFault(cast, "primary", "conductivity_mS_cm", (c, draw) => {
      for (let i = 100; i < n - 100; i += 200) c[i]! -= 0.05 + 0.1 * draw.uniform();
    });
    const put = Math.ceil((n - 200) / 200) / n;
    const seen = healthOf(spiked).cells.primary!.conductivitySpikes / 1000;
    expect(seen / put).toBeGreaterThan(0.9);
    expect(seen / put).toBeLessThan(1.1);
  });
});

describe("dropouts", () => {
  it.each([
    ["gaps", Number.NaN],
    ["zeros", 0],
    ["the fill value -9.99", -9.99],
    ["the fill value 1e35", 1e35],
  ])("one scan in a hundred of %s is found in all casts, and counted", (_, value) => {
    for (const ocean of oceanNames) {
      const cast = castAt(ocean, 24, 20);
      let put = 0;
      const faulty = withFault(cast, "secondary", "conductivity_mS_cm", (column, draw) => {
        for (let i = 2500; i < column.length - 500; i++) {
          if (draw.uniform() > 0.01) continue;
          column[i] = value;
          put++;
        }
      });
      const { findings, cells } = healthOf(faulty);
      expect(kindsOf(findings)).toEqual(["dropouts"]);
      const n = cast.columns.pressure_dbar.length;
      // Zeros above 5 dbar are air, of which there is none in a cast that is lowered once.
      expect(cells.secondary!.conductivityDropouts * n).toBeGreaterThan(0.93 * put);
      expect(cells.secondary!.conductivityDropouts * n).toBeLessThan(1.001 * put);
    }
  });

  it("a gap of ten seconds is reported with its first and last scan", () => {
    const faulty = withFault(castAt("open-ocean", 24, 20), "primary", "temperature_C", (t) =>
      t.fill(Number.NaN, 9000, 9240),
    );
    const { findings } = healthOf(faulty);
    expect(findings).toMatchObject([
      { kind: "dropouts", sensor: "temperature", scans: { from: 9000, to: 9239 } },
    ]);
  });

  it("scans without any reading are reported once, for the pressure", () => {
    const cast = castAt("open-ocean", 24, 20);
    const hole = (column: Float64Array) => column.slice().fill(Number.NaN, 8000, 8300);
    const { pressure_dbar, primary, secondary, ...rest } = cast.columns;
    const cells = [primary, secondary!].map(({ temperature_C, conductivity_mS_cm }) => ({
      temperature_C: hole(temperature_C),
      conductivity_mS_cm: hole(conductivity_mS_cm),
    }));
    const faulty = {
      ...cast,
      columns: {
        ...rest,
        pressure_dbar: hole(pressure_dbar),
        primary: cells[0]!,
        secondary: cells[1]!,
      },
    };
    expect(healthOf(faulty).findings).toMatchObject([{ kind: "dropouts", sensor: "pressure" }]);
  });
});

describe("stuck values", () => {
  it.each(["conductivity_mS_cm", "temperature_C"] as const)(
    "ten seconds of %s where the water changes are found in all casts",
    (sensor) => {
      const { share, others } = overCasts("stuck", (cast, rate, draw) => {
        const length = 10 * rate;
        const from = steepest(cast, length, draw);
        return withFault(cast, "primary", sensor, (c) => c.fill(c[from]!, from, from + length));
      });
      expect(share).toBe(1);
      expect(others).toEqual([]);
    },
    slow,
  );

  it("the reported stuck scans are the true ones", () => {
    const faulty = withFault(castAt("open-ocean", 24, 20), "secondary", "temperature_C", (t) =>
      t.fill(t[5000]!, 5000, 5600),
    );
    expect(healthOf(faulty).findings).toMatchObject([
      { kind: "stuck", cell: "secondary", leg: "down", scans: { from: 5000, to: 5599 } },
    ]);
  });

  it("a value that repeats in water that stands still is not stuck", () => {
    // Resolution 0.01: in the deep, readings repeat for many scans, honestly.
    for (const ocean of oceanNames) {
      const coarse = withFault(
        withFault(castAt(ocean, 24, 20), "primary", "temperature_C", rounded),
        "primary",
        "conductivity_mS_cm",
        rounded,
      );
      expect(kindsOf(healthOf(coarse).findings)).toEqual(["coarse-steps"]);
    }
  });

  it("a pressure that stands for ten seconds of the lowering and then leaps", () => {
    for (const ocean of oceanNames) {
      const cast = castAt(ocean, 24, 20);
      const p = cast.columns.pressure_dbar;
      const from = p.findIndex((value, i) => i > 4000 && value > 40);
      const stuck = p.slice().fill(p[from]!, from, from + 240);
      const faulty = { ...cast, columns: { ...cast.columns, pressure_dbar: stuck } };
      expect(kindsOf(healthOf(faulty).findings)).toEqual(["stuck"]);
    }
  });
});

/** To two digits. */
function rounded(column: Float64Array): void {
  for (let i = 0; i < column.length; i++) column[i] = Math.round(100 * column[i]!) / 100;
}

describe("the end of the range", () => {
  it("a conductivity that ends halfway up its range is reported with the value", () => {
    const { share } = overCasts("saturation", (cast) =>
      withFault(cast, "primary", "conductivity_mS_cm", (c) => {
        const [least, most] = [Math.min(...sampled(c)), Math.max(...sampled(c))];
        const end = (least + most) / 2;
        for (let i = 0; i < c.length; i++) c[i] = Math.min(end, c[i]!);
      }),
    );
    expect(share).toBe(1);
  });
});

const sampled = (column: Float64Array) => column.filter((_, i) => i % 10 === 0);

describe("noise", () => {
  it("noise of five times the other cell is found with two cells, and measured within a fifth", () => {
    for (const ocean of oceanNames) {
      for (const rate of rates) {
        const cast = withFault(
          castAt(ocean, rate, 22),
          "secondary",
          "conductivity_mS_cm",
          (c, draw) => {
            for (let i = 0; i < c.length; i++) c[i]! += 0.002 * draw.normal();
          },
        );
        const { findings, cells } = healthOf(cast);
        expect(kindsOf(findings)).toEqual(["noise"]);
        const put = Math.hypot(0.002, 0.0004);
        expect(Math.abs(cells.secondary!.conductivityNoise_mS_cm / put - 1)).toBeLessThan(0.2);
      }
    }
  });

  it("a noisy minute is found, with its place, at 24 and 4 Hz", () => {
    for (const ocean of oceanNames) {
      for (const rate of rates) {
        const from = 200 * rate;
        const cast = withFault(
          castAt(ocean, rate, 21),
          "primary",
          "conductivity_mS_cm",
          (c, draw) => {
            for (let i = from; i < from + 60 * rate; i++) c[i]! += 0.01 * draw.normal();
          },
        );
        const { findings } = healthOf(cast);
        expect(kindsOf(findings)).toEqual(["noise"]);
        // Where the water itself is restless, part of it may hide the noise; nothing outside is claimed.
        const { scans } = findings[0]!;
        expect(scans.from).toBeGreaterThan(from - 10 * rate);
        expect(scans.to).toBeLessThan(from + 70 * rate);
        expect(scans.to - scans.from).toBeGreaterThan(20 * rate);
        expect(findings[0]!.serious).toBe(true);
      }
    }
  });
});

describe("averages of 1 dbar", () => {
  it("averages of 1 dbar show stuck values and the end of the range, but no spikes, bubbles or noise", () => {
    const { share, others } = overCasts(
      "stuck",
      (cast, _, draw) => {
        const from = steepest(cast, 15, draw);
        return withFault(cast, "primary", "conductivity_mS_cm", (c) =>
          c.fill(c[from]!, from, from + 15),
        );
      },
      [0],
    );
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(others).toEqual([]);
  });
});
