// The place of the package at each scan of a cast, or at each layer of averaged scans.
// Numbers without a source are judgement: an ordinary swell, winch and sampling.
import type { LegName } from "../cast/cast.js";
import { secondsBefore } from "./deck.js";
import { bottleStop_s, winch_dbar_s } from "./legTimes.js";
import type { Averages, CompleteScenario, TimeSeries } from "./scenario.js";

/** The path of the scans in the water; those on deck are in deck.ts. */
export interface PackagePath {
  readonly pressure_dbar: Float64Array;
  /** Progress of the leg without the ship's heave, which places the events within the cast, dbar. */
  readonly reached_dbar: Float64Array;
  /** Scans before this are on the down leg. */
  readonly turn: number;
  /** Seconds from the scan before; the first is 0. */
  readonly interval_s: Float64Array;
  /** Seconds since the first scan, deck scans included; absent for averages. */
  readonly time_s?: Float64Array;
  /** Seconds since the first scan at which each bottle closed, deepest first; absent for averages. */
  readonly closed_s?: readonly number[];
}

/** Soak, then the surface once more, then lowering (common practice, no source). */
const soakAt_dbar = 10;
const surface_dbar = 1;
const usual = { soak_s: 120, shipHeave_dbar: 0.5 };
/** Periods of a swell, s; heave is the sum of two waves (judgement). */
const periods_s = [8.5, 11];
/** Least pressure, dbar: the package is not lifted out of the water. */
const leastPressure_dbar = 0.3;
/** Duration of the turn if no bottle is closed at the deepest pressure, s. */
const turn_s = 10;

export function legAt({ turn }: PackagePath, scan: number): LegName {
  return scan < turn ? "down" : "up";
}

export function packagePath(scenario: CompleteScenario): PackagePath {
  const { sampling } = scenario;
  return sampling.kind === "averages" ? ofLayers(scenario, sampling) : ofScans(scenario, sampling);
}

/** Layers at their middle, down and up; the deepest is a whole one. */
function ofLayers({ deepest_dbar }: CompleteScenario, { layer_dbar }: Averages): PackagePath {
  const layers = Math.max(1, Math.floor(deepest_dbar / layer_dbar + 1e-9));
  const pressure = Float64Array.from({ length: 2 * layers }, (_, i) => {
    const layer = i < layers ? i : 2 * layers - 1 - i;
    return (layer + 0.5) * layer_dbar;
  });
  const interval = new Float64Array(2 * layers).fill(layer_dbar / winch_dbar_s);
  interval[0] = 0;
  interval[layers]! += bottleStop_s;
  return { pressure_dbar: pressure, reached_dbar: pressure, turn: layers, interval_s: interval };
}

function ofScans(scenario: CompleteScenario, sampling: TimeSeries): PackagePath {
  const { rate_Hz, shipHeave_dbar = usual.shipHeave_dbar } = sampling;
  const { corners, lowered_s, turned_s, closed_s } = stagesOf(scenario, sampling);
  const n = Math.floor(corners.at(-1)!.t * rate_Hz) + 1;
  const pressure = new Float64Array(n);
  const reached = new Float64Array(n);
  const time = Float64Array.from({ length: n }, (_, i) => i / rate_Hz);
  const deck_s = secondsBefore(scenario);
  let corner = 0;
  for (let i = 0; i < n; i++) {
    const t = time[i]!;
    while (corner < corners.length - 2 && corners[corner + 1]!.t < t) corner++;
    const { t: t0, p: p0 } = corners[corner]!;
    const { t: t1, p: p1 } = corners[corner + 1]!;
    const p = t1 > t0 ? p0 + ((p1 - p0) * (t - t0)) / (t1 - t0) : p1;
    reached[i] = t < lowered_s ? surface_dbar : p;
    pressure[i] = Math.max(leastPressure_dbar, p + shipHeave_dbar * swell(t));
  }
  const interval = new Float64Array(n).fill(1 / rate_Hz);
  interval[0] = 0;
  return {
    pressure_dbar: pressure,
    reached_dbar: reached,
    turn: Math.min(n, Math.ceil(turned_s * rate_Hz)),
    interval_s: interval,
    time_s: deck_s === 0 ? time : time.map((t) => deck_s + t),
    closed_s: closed_s.map((t) => deck_s + t),
  };
}

/** The path without heave, straight between its corners (seconds, dbar). */
function stagesOf(
  { deepest_dbar, bottlePressures_dbar }: CompleteScenario,
  { soak_s = usual.soak_s }: TimeSeries,
) {
  const corners = [{ t: 0, p: surface_dbar }];
  const now = () => corners.at(-1)!.t;
  const go = (p: number) => {
    const last = corners.at(-1)!;
    corners.push({ t: last.t + Math.abs(p - last.p) / winch_dbar_s, p });
  };
  const stand = (seconds: number) => corners.push({ t: now() + seconds, p: corners.at(-1)!.p });
  go(Math.min(soakAt_dbar, deepest_dbar / 4));
  stand(soak_s);
  go(surface_dbar);
  const lowered_s = now();
  go(deepest_dbar);
  const turned_s = now();
  stand(turn_s);
  const closed_s = bottlePressures_dbar.map((p) => {
    go(p);
    stand(bottleStop_s);
    return now();
  });
  go(surface_dbar);
  return { corners, lowered_s, turned_s, closed_s };
}

/** Between -1 and 1. */
function swell(t: number): number {
  return periods_s.reduce((sum, s) => sum + Math.sin((2 * Math.PI * t) / s), 0) / periods_s.length;
}
