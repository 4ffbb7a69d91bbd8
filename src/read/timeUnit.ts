// Times of scans that are not in seconds, recognised by the speed of the package.
import { sum } from "d3-array";
import { median } from "../statistics/robustCentre.js";
import type { Fault } from "./badInput.js";

/**
 * Speeds of a package, dbar/s (judgement): a probe in free fall makes 6, a winch 0.3 to 2. In minutes a winch would seem to
 * make 18 and more, in milliseconds 0.002 at the most.
 */
const plausible = { slowest: 0.003, fastest: 10, usual: 0.7 };
/** Speeds of a package in its true unit, with which that unit is recognised (judgement), dbar/s. */
const recognised = { slowest: 0.05, fastest: 15 };
/** Seconds in each unit that a column of times may have. */
const units = {
  microseconds: 1e-6,
  milliseconds: 1e-3,
  minutes: 60,
  hours: 3600,
  days: 86_400,
} as const;
/** Speeds are taken between blocks of scans, at most this many, so that spikes have no effect. */
const mostBlocks = 200;
/** The number of scans of a block that are used (judgement). */
const scansOfBlock = 15;
/** Fewer moves between blocks show no speed (judgement). */
const fewestMoves = 4;
/** A smaller range is no lowering, dbar (judgement). */
const leastRange_dbar = 5;

/**
 * @param time_s        by scan, NaN if missing
 * @param pressure_dbar by scan
 * @returns the fault if the package would move as none does; otherwise undefined, also if it did not move
 */
export function timeUnitFault(
  time_s: ArrayLike<number>,
  pressure_dbar: ArrayLike<number>,
): Pick<Fault, "found" | "expected" | "mend"> | undefined {
  const speed = typicalSpeed(blocksOf(time_s, pressure_dbar));
  if (speed === undefined) return undefined;
  const unit = likelyUnit(speed);
  const looks = unit === undefined ? "" : `: they look like ${unit}`;
  const multiply = unit === undefined ? "Convert them" : `Multiply them by ${units[unit]}`;
  return {
    found: `times by which the package moves at ${Number(speed.toPrecision(2))} dbar a second${looks}`,
    expected: `seconds: a package moves at ${plausible.slowest} to ${plausible.fastest} dbar a second`,
    mend: `${multiply} to seconds, or leave the column out.`,
  };
}

interface TimeBlock {
  readonly seconds: number;
  readonly dbar: number;
}

/** Medians of the first scans of successive blocks. */
function blocksOf(
  time_s: ArrayLike<number>,
  pressure_dbar: ArrayLike<number>,
): readonly TimeBlock[] {
  const count = time_s.length;
  const length = Math.max(3, Math.ceil(count / mostBlocks));
  const used = Math.min(length, scansOfBlock);
  const blocks: TimeBlock[] = [];
  for (let from = 0; from + length <= count; from += length) {
    const [times, pressures]: [number[], number[]] = [[], []];
    for (let i = from; i < from + used; i++) {
      if (!Number.isFinite(time_s[i]!) || !Number.isFinite(pressure_dbar[i]!)) continue;
      times.push(time_s[i]!);
      pressures.push(pressure_dbar[i]!);
    }
    if (times.length > 0) blocks.push({ seconds: median(times), dbar: median(pressures) });
  }
  return blocks;
}

/**
 * The speed while the package is lowered and hoisted, dbar/s; undefined if it is believable or unknown. A step of the clock
 * changes the mean, and times of few decimals the median: so both must be wrong in the same way.
 */
function typicalSpeed(blocks: readonly TimeBlock[]): number | undefined {
  const levels = blocks.map(({ dbar }) => dbar);
  const range =
    levels.reduce((a, b) => Math.max(a, b), 0) - levels.reduce((a, b) => Math.min(a, b), Infinity);
  if (!(range >= leastRange_dbar)) return undefined;
  const moves = blocks.slice(1).flatMap(({ seconds, dbar }, i) => {
    const move = { dbar: Math.abs(dbar - blocks[i]!.dbar), seconds: seconds - blocks[i]!.seconds };
    // Otherwise it stood, or the swell moved it.
    return move.dbar >= range / mostBlocks ? [move] : [];
  });
  const middle = median(moves.map(({ dbar, seconds }) => dbar / seconds));
  const mean = sum(moves, ({ dbar }) => dbar) / sum(moves, ({ seconds }) => seconds);
  if (moves.length < fewestMoves || !Number.isFinite(mean)) return undefined;
  const fast = Math.min(middle, mean) > plausible.fastest;
  const slow = middle > 0 && Math.max(middle, mean) < plausible.slowest;
  return fast || slow ? middle : undefined;
}

/** The unit in which a speed is the most usual; undefined if it is usual in none. */
function likelyUnit(speed: number): keyof typeof units | undefined {
  const away = (unit: keyof typeof units) =>
    Math.abs(Math.log(speed / units[unit] / plausible.usual));
  const names = Object.keys(units) as (keyof typeof units)[];
  const nearest = names.reduce((a, b) => (away(b) < away(a) ? b : a));
  const then = speed / units[nearest];
  return then >= recognised.slowest && then <= recognised.fastest ? nearest : undefined;
}
