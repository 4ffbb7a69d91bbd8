// An invented lowering, scan by scan, with the truth of what the package was doing.
import type { Cast } from "../../src/cast/cast.js";
import { seeded } from "../evidence/seeded.js";

export interface Lowering {
  readonly rate_Hz: number;
  readonly deepest_dbar: number;
  readonly soak: { readonly dbar: number; readonly seconds: number; readonly raised: boolean };
  /** Stops on the way up, and on the way down, dbar. */
  readonly stops: readonly number[];
  readonly stopsDown?: readonly number[];
  readonly stop_s: number;
  readonly heave: { readonly amplitude_m: number; readonly period_s: number };
  readonly withTime: boolean;
  readonly seed: number;
}

export type Doing = "deck" | "soak" | "down" | "bottom" | "up" | "stop" | "surface";

/** Winch at 1 m/s; on deck and at the surface before and after; pressure noise 0.01 dbar. */
export function simulateLowering(lowering: Lowering): { cast: Cast; doing: readonly Doing[] } {
  const { rate_Hz, deepest_dbar, soak, stops, stop_s, heave, withTime, seed } = lowering;
  const random = seeded(seed);
  const winch: number[] = [];
  const doing: Doing[] = [];
  let at = 0;
  const hold = (seconds: number, what: Doing) => {
    for (let k = 0; k < seconds * rate_Hz; k++) {
      winch.push(at);
      doing.push(what);
    }
  };
  const go = (to: number, what: Doing) => {
    const step = Math.sign(to - at) / rate_Hz;
    while ((to - at) * step > 0) {
      at += step;
      winch.push(at);
      doing.push(what);
    }
    at = to;
  };
  at = -0.5;
  hold(60, "deck");
  at = 1;
  if (soak.seconds > 0) {
    go(soak.dbar, "soak");
    hold(soak.seconds, "soak");
    if (soak.raised) {
      go(1, "soak");
      hold(5, "soak");
    }
  }
  for (const stop of [...(lowering.stopsDown ?? [])].sort((a, b) => a - b)) {
    go(stop, "down");
    hold(stop_s, "stop");
  }
  go(deepest_dbar, "down");
  hold(stop_s, "bottom");
  for (const stop of [...stops].sort((a, b) => b - a)) {
    go(stop, "up");
    hold(stop_s, "stop");
  }
  go(1, "up");
  hold(30, "surface");
  at = -0.5;
  hold(60, "deck");

  // Swell in groups: the amplitude itself rises and falls.
  const pressure = Float64Array.from(winch, (w, i) => {
    if (doing[i] === "deck") return w + 0.01 * random.normal();
    const t = i / rate_Hz;
    const group = 0.75 + 0.25 * Math.cos((2 * Math.PI * t) / 97);
    const lift = heave.amplitude_m * group * Math.sin((2 * Math.PI * t) / heave.period_s);
    return Math.max(0.3, w + lift) + 0.01 * random.normal();
  });
  const inAir = (i: number) => doing[i] === "deck";
  const cast: Cast = {
    id: "invented",
    conductivityFrom: "measured",
    columns: {
      ...(withTime ? { time_s: Float64Array.from(winch, (_, i) => i / rate_Hz) } : {}),
      pressure_dbar: pressure,
      primary: {
        temperature_C: pressure.map((p) => 4 + 10 * Math.exp(-p / 300)),
        conductivity_mS_cm: pressure.map((p, i) => (inAir(i) ? 0.02 : 32 + 9 * Math.exp(-p / 300))),
      },
      others: {},
    },
  };
  return { cast, doing };
}
