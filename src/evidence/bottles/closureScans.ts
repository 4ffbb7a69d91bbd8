// The scans for the CTD reading at a bottle closure: the last seconds before its closure time. Without a time: the end of
// the stop at its pressure. Without a stop: the scans of the up leg near the pressure.
import { median } from "../../statistics/robustCentre.js";
import { scanAt, type UpScans } from "./upScans.js";

/**
 * Seconds before closure that are used: about one wave of a common swell; 5 to 10 s are usual (common practice, no source).
 * Later scans would be of other water, earlier ones have more thermal lag.
 */
const last_s = 10;
/** Fewer seconds are used if the package had just arrived (judgement: half a wave at the least). */
const least_s = 2;
/** Swell moves a stopped package by up to about this, dbar (common practice, no source). */
const swell_dbar = 4;
/** Time to arrive through the range of the swell at the usual 1 dbar/s, s (derived). */
const arrival_s = 4;
/** If the package stayed within the swell for a shorter time, the bottle was closed on the fly, s (judgement). */
const standing_s = 8;
/**
 * A closure and the pressure written beside it agree within the swell, or within this share (judgement). A depth in metres that is
 * written for a pressure is smaller, at 6000 dbar by 2.4 per cent [UNESCO1983].
 */
const agreementShare = 0.01;
const agreementShareOfDepth = 0.03;
/** On the fly without a time: half-width of the interval that is used, dbar (common practice, no source). */
const halfWidth_dbar = 0.5;
/** A scan further than this from the closure pressure is of other water, dbar (judgement). */
const furthest_dbar = 5;

export interface ClosureScans {
  /** `averaged`: a profile without times, so it is unknown whether the package stood still. */
  readonly how: "standing" | "moving" | "averaged";
  /** In order of time. */
  readonly scans: readonly number[];
}

function agrees(pressure_dbar: number, written_dbar: number): boolean {
  const within = Math.max(swell_dbar, agreementShare * written_dbar);
  return Math.abs(pressure_dbar - written_dbar) <= within;
}

function maybeDepth(pressure_dbar: number, written: number): boolean {
  return written <= pressure_dbar && written >= (1 - agreementShareOfDepth) * pressure_dbar;
}

/** The pressure of the CTD at a closure, dbar. */
export function pressureAt({ pressure }: UpScans, { scans }: ClosureScans): number {
  return median(scans.map((scan) => pressure[scan]!));
}

/** The scans before a closure at a time of the cast's clock, or a text with the reason why there are none. */
export function scansAtTime(
  up: UpScans,
  written_dbar: number,
  time_s: number,
): ClosureScans | string {
  const { seconds, from } = up;
  const at = scanAt(seconds, time_s);
  if (at < 0 || time_s > seconds[seconds.length - 1]! + least_s) {
    return "its closure time lies outside the cast";
  }
  if (at < from) return "its closure time lies on the way down";
  const found = scansBefore(up, at);
  const pressure = pressureAt(up, found);
  if (agrees(pressure, written_dbar) || maybeDepth(pressure, written_dbar)) return found;
  return `at its closure time the CTD was at ${pressure.toFixed(0)} dbar`;
}

/** The scans without a time; undefined if no scan of the up leg is near the pressure. */
export function scansAtPressure(up: UpScans, written_dbar: number): ClosureScans | undefined {
  let nearest: { readonly end: number; readonly away: number } | undefined;
  for (const { end, pressure_dbar } of up.stands()) {
    const away = Math.abs(pressure_dbar - written_dbar);
    if (agrees(pressure_dbar, written_dbar) && !(nearest !== undefined && nearest.away < away)) {
      nearest = { end, away };
    }
  }
  if (nearest !== undefined) return scansBefore(up, nearest.end);
  const scans = scansAround(up, written_dbar);
  return scans.length === 0 ? undefined : { how: up.timed ? "moving" : "averaged", scans };
}

/** The last seconds up to and including a scan, without the arrival. */
function scansBefore({ pressure, seconds, from }: UpScans, at: number): ClosureScans {
  const closed = seconds[at]!;
  const last: number[] = [];
  for (let i = at; i >= from && closed - seconds[i]! <= least_s; i--) last.push(pressure[i]!);
  const level = median(last);
  let arrival = at;
  while (arrival > from && !(Math.abs(pressure[arrival - 1]! - level) > swell_dbar)) arrival--;
  const stood_s = closed - seconds[arrival]!;
  const standing = stood_s >= standing_s;
  const read_s = standing ? Math.min(last_s, Math.max(least_s, stood_s - arrival_s)) : least_s;
  const scans: number[] = [];
  for (let i = at; i >= arrival && closed - seconds[i]! <= read_s; i--) scans.push(i);
  return { how: standing ? "standing" : "moving", scans: scans.reverse() };
}

/** The scans within half a dbar, otherwise the nearest one. */
function scansAround({ pressure, from }: UpScans, written_dbar: number): readonly number[] {
  const scans: number[] = [];
  let nearest = -1;
  let away = furthest_dbar;
  for (let i = from; i < pressure.length; i++) {
    const distance = Math.abs(pressure[i]! - written_dbar);
    if (distance <= halfWidth_dbar) scans.push(i);
    if (distance <= away) {
      away = distance;
      nearest = i;
    }
  }
  if (scans.length > 0) return scans;
  return nearest < 0 ? [] : [nearest];
}
