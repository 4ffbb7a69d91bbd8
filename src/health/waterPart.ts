// The part of a cast for the checks of the sensors: all scans from entry to exit, with soak, stops and surface, which the
// legs exclude.
import type { Cast, CastColumns, CellColumns, CellName, LegName } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import { inAirTest } from "../cast/wetScans.js";

export interface WaterPart {
  readonly columns: CastColumns;
  /** First scan in the water and the one after the last. */
  readonly from: number;
  readonly to: number;
  /** Scans before this are on the way down. */
  readonly turn: number;
  readonly interval_s: number;
  readonly seconds: Float64Array;
  readonly inAir: (scan: number) => boolean;
  readonly legs: Legs;
}

/** With more time between scans, the change of the water exceeds a sensor's noise, s (judgement). */
const quick_s = 0.3;

/** Whether single scans can be distinguished from changes of the water: 4 Hz or more (judgement). */
export function quickScans({ interval_s }: WaterPart): boolean {
  return interval_s <= quick_s;
}

export function waterPart(cast: Cast, legs: Legs): WaterPart {
  const { columns } = cast;
  const { pressure_dbar: pressure } = columns;
  const inAir = inAirTest(columns, pressure);
  // No gauge reads lower in air, dbar (judgement).
  const dry = (i: number) => inAir(i) || !(pressure[i]! > -20);
  let from = 0;
  let to = pressure.length;
  while (from < to && dry(from)) from++;
  while (to > from && dry(to - 1)) to--;
  const { seconds } = legs.clock;
  const elapsed = to - from > 1 ? (seconds[to - 1]! - seconds[from]!) / (to - from - 1) : 1;
  const lastDown = legs.down.at(-1);
  const firstUp = legs.up[0];
  return {
    columns,
    from,
    to,
    turn: lastDown !== undefined ? lastDown + 1 : (firstUp ?? to),
    interval_s: elapsed > 0 ? elapsed : 1,
    seconds,
    inAir,
    legs,
  };
}

export function cellsOf({ columns }: WaterPart): readonly (readonly [CellName, CellColumns])[] {
  const { primary, secondary } = columns;
  return secondary === undefined
    ? [["primary", primary]]
    : [
        ["primary", primary],
        ["secondary", secondary],
      ];
}

/** The leg of a stretch of scans; undefined if it is on both. */
export function legOf({ turn }: WaterPart, from: number, to: number): LegName | undefined {
  if (to < turn) return "down";
  return from >= turn ? "up" : undefined;
}
