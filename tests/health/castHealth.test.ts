import { describe, expect, it } from "vitest";
import { healthOf, kindsOf, scansAt, soundCast, withFault } from "./faults.js";

describe("sound casts", () => {
  it.each(["open-ocean", "shelf", "brackish"] as const)("of the %s have no finding", (ocean) => {
    for (const rate of [24, 4, 2]) {
      const deepest_dbar = ocean === "open-ocean" ? 300 : 100;
      for (let seed = 0; seed < 3; seed++) {
        const cast = soundCast({ seed, ocean, deepest_dbar, sampling: scansAt(rate) });
        expect(healthOf(cast).findings).toEqual([]);
      }
    }
  });
});

describe("a fault that was put in at a known place", () => {
  const sound = soundCast({ seed: 1, sampling: scansAt(24) });
  const n = sound.columns.pressure_dbar.length;

  it("spikes: the rate is that of the spikes, within a tenth", () => {
    const cast = withFault(sound, "primary", "conductivity_mS_cm", (c, draw) => {
      for (let i = 3000; i < n - 100; i += 200) c[i]! -= 0.05 + 0.1 * draw.uniform();
    });
    const { findings, cells } = healthOf(cast);
    expect(kindsOf(findings)).toEqual(["spikes"]);
    const put = (1000 * Math.ceil((n - 3100) / 200)) / n;
    expect(cells.primary!.conductivitySpikes / put).toBeGreaterThan(0.9);
    expect(cells.primary!.conductivitySpikes / put).toBeLessThan(1.1);
  });

  it("a stuck value is found with its first and last scan", () => {
    const cast = withFault(sound, "secondary", "temperature_C", (t) =>
      t.fill(t[5000]!, 5000, 5600),
    );
    const { findings } = healthOf(cast);
    expect(kindsOf(findings)).toEqual(["stuck"]);
    expect(findings[0]).toMatchObject({
      cell: "secondary",
      sensor: "temperature",
      leg: "down",
      scans: { from: 5000, to: 5599 },
    });
  });

  it("a conductivity in S/m is told with its factor", () => {
    const cast = withFault(sound, "primary", "conductivity_mS_cm", (c) =>
      c.forEach((v, i) => {
        c[i] = v / 10;
      }),
    );
    const { findings } = healthOf(cast);
    expect(kindsOf(findings)).toEqual(["units"]);
    expect(findings[0]!.size.value).toBe(10);
  });

  it("gaps and zeros are counted together", () => {
    const cast = withFault(sound, "primary", "conductivity_mS_cm", (c) => {
      c.fill(0, 8000, 8100);
      c.fill(Number.NaN, 9000, 9050);
    });
    const { findings, cells } = healthOf(cast);
    expect(kindsOf(findings)).toEqual(["dropouts"]);
    expect(cells.primary!.conductivityDropouts * n).toBeCloseTo(150, 0);
  });

  it("noise beyond that of the other cell", () => {
    const cast = withFault(sound, "secondary", "conductivity_mS_cm", (c, draw) =>
      c.forEach((v, i) => {
        c[i] = v + 0.002 * draw.normal();
      }),
    );
    const { findings, cells } = healthOf(cast);
    expect(kindsOf(findings)).toEqual(["noise"]);
    expect(cells.secondary!.conductivityNoise_mS_cm).toBeCloseTo(Math.hypot(0.002, 0.0004), 3);
  });
});
