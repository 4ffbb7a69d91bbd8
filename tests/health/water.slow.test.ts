// What is the matter with the water in the cell rather than with its electronics: air, no flow, too little flow.
import { describe, expect, it } from "vitest";
import { oceanNames, randomStream, type SimulatedEvent } from "../../src/simulate/index.js";
import { healthOf, kindsOf, scansAt, soundCast, withFault } from "./faults.js";

const slow = 120_000;

describe("bubbles", () => {
  it(
    "eight drops of half a second, of 2 to 20 %, within a minute of entry are found, and nothing else",
    () => {
      for (const ocean of oceanNames) {
        for (const rate of [24, 4]) {
          for (const seed of [1, 2]) {
            const cast = soundCast({ seed, ocean, sampling: scansAt(rate) });
            const draw = randomStream(seed).split("bubbles");
            const faulty = withFault(cast, "primary", "conductivity_mS_cm", (c) => {
              for (let k = 0; k < 8; k++) {
                const from = Math.floor((4 + 7 * k + 3 * draw.uniform()) * rate);
                const factor = 0.8 + 0.18 * draw.uniform();
                for (let i = from; i < from + rate / 2; i++) c[i]! *= factor;
              }
            });
            const { findings } = healthOf(faulty);
            expect(kindsOf(findings)).toEqual(["bubbles"]);
            expect(findings[0]!.pressure_dbar!.to).toBeLessThan(20);
          }
        }
      }
    },
    slow,
  );
});

describe("a pump that starts late", () => {
  it.each([
    ["reads 40 % low", 0.6],
    ["reads 5 % low", 0.95],
    ["reads 5 % high, of saltier water it was kept in", 1.05],
  ])(
    "the cell %s until it runs: found, for as long as it did, at 24, 4 and 1 Hz",
    (_, factor) => {
      for (const ocean of oceanNames) {
        for (const rate of [24, 4, 1]) {
          const cast = soundCast({ seed: 3, ocean, sampling: scansAt(rate) });
          const on_s = 45;
          const faulty = withFault(cast, "secondary", "conductivity_mS_cm", (c) => {
            for (let i = 0; i < c.length; i++) {
              const since = i / rate - on_s;
              c[i]! *= since < 0 ? factor : 1 + (factor - 1) * Math.exp(-since / 2);
            }
          });
          const late = healthOf(faulty).findings.filter(({ kind }) => kind === "late-pump");
          expect(late).toMatchObject([{ cell: "secondary", leg: "down", serious: true }]);
          const seconds = late[0]!.scans.to / rate;
          expect(seconds).toBeGreaterThan(on_s - 3);
          expect(seconds).toBeLessThan(on_s + 15);
        }
      }
    },
    slow,
  );

  it("a soak of a minute is enough to see that the pump started after 40 s", () => {
    const rate = 4;
    const on_s = 40;
    const cast = soundCast({ seed: 5, sampling: { ...scansAt(rate), soak_s: 60 } });
    const faulty = withFault(cast, "primary", "conductivity_mS_cm", (c) => {
      for (let i = 0; i < on_s * rate; i++) c[i]! *= 0.95;
    });
    const late = healthOf(faulty).findings.filter(({ kind }) => kind === "late-pump");
    expect(late).toMatchObject([{ cell: "primary", leg: "down", serious: true }]);
  });

  it("fresh water at the surface on both legs is not a late pump", () => {
    const cast = soundCast({ seed: 4, sampling: scansAt(4) });
    const p = cast.columns.pressure_dbar;
    const fresh = withFault(cast, "primary", "conductivity_mS_cm", (c) => {
      for (let i = 0; i < c.length; i++) c[i]! -= 4 * Math.exp(-p[i]! / 3);
    });
    expect(kindsOf(healthOf(fresh).findings)).not.toContain("late-pump");
  });
});

describe("too little flow", () => {
  const events = (event: SimulatedEvent) => ({ events: [event] });

  // Amplitude and time constant at a share of the flow by [MorisonEtAl1994], independent of what is fitted here.
  it(
    "salinity settles at stops by the factor that the thermal lag was given",
    () => {
      for (const ocean of oceanNames) {
        for (const factor of [1, 2, 4]) {
          for (const rate of [24, 2]) {
            const lag = { kind: "thermal-lag", cells: ["primary"], cast: 1, factor } as const;
            const cast = soundCast({ seed: 5, ocean, sampling: scansAt(rate), ...events(lag) });
            const settling = healthOf(cast).cells.primary!.settling!;
            expect(settling.stops).toBeGreaterThanOrEqual(4);
            expect(Math.abs(settling.times / factor - 1)).toBeLessThan(0.25);
          }
        }
      }
    },
    slow,
  );

  it(
    "a tenth and three tenths of the flow are found, with two cells, and the cell that has it is named",
    () => {
      for (const ocean of oceanNames) {
        for (const flow of [0.1, 0.3]) {
          const loss = { kind: "flow-loss", cells: ["secondary"], cast: 1, flow } as const;
          const cast = soundCast({ seed: 8, ocean, sampling: scansAt(4), ...events(loss) });
          const { findings } = healthOf(cast);
          expect(findings.every(({ cell }) => cell === "secondary")).toBe(true);
          expect(kindsOf(findings)).toContain("slow-flow");
          expect(findings.find(({ kind }) => kind === "slow-flow")!.what).toMatch(
            /secondary cell changes by \d+\.\d\d ± \d+\.\d\d times what the usual thermal lag/,
          );
        }
      }
    },
    slow,
  );
});
