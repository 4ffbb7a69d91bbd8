// A cast whose package stands on the way up, under swell, with a cell whose wall holds heat: scans at 4 Hz in water that is
// known exactly. Lag by the recursive filter of the trade [MorisonEtAl1994], which the package itself does not use.
import type { Bottle } from "../../../src/cast/bottle.js";
import type { Cast } from "../../../src/cast/cast.js";
import { cFromSp } from "../../../src/seawater/index.js";
import { thermalLagOfScans } from "../../../src/simulate/cellWallHeat.js";
import { seeded } from "../seeded.js";
import { column } from "./closures.js";

export interface Standing {
  /** Where the package stands, deepest first, dbar. */
  readonly stops_dbar: readonly number[];
  readonly stand_s: number;
  readonly swell_dbar?: number;
  readonly lag?: { readonly alpha: number; readonly tau_s: number };
  /** Gain error on the way up, ppm. */
  readonly gain_ppm?: number;
  /** One scan in so many is a spike of conductivity. */
  readonly spikesOneIn?: number;
}

const interval_s = 0.25;
const rate_dbar_s = 1;
/** Bottles close so long before the package goes on, s. */
export const beforeLeaving_s = 5;

/** The cast, and a bottle for each stop that holds the water of its level. */
export function standingCast(standing: Standing): {
  readonly cast: Cast;
  readonly bottles: readonly Bottle[];
} {
  const { stops_dbar, stand_s, swell_dbar = 0, lag = { alpha: 0, tau_s: 1 } } = standing;
  const { gain_ppm = 0, spikesOneIn } = standing;
  const level: number[] = [];
  const go = (to: number) => {
    let from = level.at(-1) ?? 0;
    const step = rate_dbar_s * interval_s * Math.sign(to - from);
    while (Math.abs(to - from) > rate_dbar_s * interval_s) {
      from += step;
      level.push(from);
    }
    level.push(to);
  };
  const stand = (seconds: number) => {
    for (let s = 0; s < seconds; s += interval_s) level.push(level.at(-1)!);
  };
  const closed: { readonly time_s: number; readonly pressure_dbar: number }[] = [];
  go(stops_dbar[0]! + 20);
  stand(30);
  for (const pressure_dbar of stops_dbar) {
    go(pressure_dbar);
    stand(stand_s);
    const time_s = Math.max(0, level.length * interval_s - Math.min(beforeLeaving_s, stand_s));
    closed.push({ time_s, pressure_dbar });
  }
  go(2);
  const swell = (i: number) => swell_dbar * Math.sin((2 * Math.PI * i * interval_s) / 9);
  const pressure = Float64Array.from(level, (p, i) => Math.max(0.5, p + swell(i)));
  const water = Array.from(pressure, (p) => column(p));
  const temperature_C = Float64Array.from(water, ({ temperature_C: t }) => t);
  const outsideLessInside = thermalLagOfScans(temperature_C, interval_s, lag);
  const { uniform } = seeded(1);
  const conductivity_mS_cm = Float64Array.from(water, ({ salinity }, i) => {
    const spike = spikesOneIn !== undefined && uniform() < 1 / spikesOneIn ? 0.3 : 0;
    const inCell = temperature_C[i]! - outsideLessInside[i]!;
    return cFromSp(salinity, inCell, pressure[i]!) * (1 + gain_ppm * 1e-6) - spike;
  });
  const time_s = Float64Array.from(pressure, (_, i) => i * interval_s);
  const columns = {
    time_s,
    pressure_dbar: pressure,
    primary: { temperature_C, conductivity_mS_cm },
    others: {},
  };
  return {
    cast: { id: "001", start: "2031-05-04T09:00:00Z", conductivityFrom: "measured", columns },
    bottles: closed.map(({ time_s: at, pressure_dbar }, i) => ({
      cast: "001",
      bottle: String(i + 1),
      pressure_dbar,
      salinity: column(pressure_dbar).salinity,
      time_s: at,
    })),
  };
}
