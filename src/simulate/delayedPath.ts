// The place of the package slightly earlier or later, between the scans: for a cell with a delay.
import type { LegName } from "../cast/cast.js";
import { legAt, type PackagePath } from "./packagePath.js";

interface DelayedPlace {
  readonly leg: LegName;
  readonly pressure_dbar: number;
}

/** @returns the place `scans` before a scan, also for a fraction; constant beyond the ends of the cast */
export function delayedPlace(path: PackagePath, scan: number, scans: number): DelayedPlace {
  const { pressure_dbar: p } = path;
  const last = p.length - 1;
  const x = Math.min(last, Math.max(0, scan - scans));
  const i = Math.min(Math.max(0, last - 1), Math.floor(x));
  const at = (k: number) => p[Math.min(last, Math.max(0, k))]!;
  return { leg: legAt(path, Math.round(x)), pressure_dbar: cubic(at, i, x - i) };
}

/** A value between those of a column, as `delayedPlace`. */
export function delayedValue(column: Float64Array, scan: number, scans: number): number {
  const last = column.length - 1;
  const x = Math.min(last, Math.max(0, scan - scans));
  const i = Math.min(Math.max(0, last - 1), Math.floor(x));
  return cubic((k) => column[Math.min(last, Math.max(0, k))]!, i, x - i);
}

/** The cubic through four neighbours, between the inner two (Lagrange's form). */
function cubic(at: (k: number) => number, i: number, f: number): number {
  return (
    (-f * (f - 1) * (f - 2) * at(i - 1)) / 6 +
    ((f + 1) * (f - 1) * (f - 2) * at(i)) / 2 -
    ((f + 1) * f * (f - 2) * at(i + 1)) / 2 +
    ((f + 1) * f * (f - 1) * at(i + 2)) / 6
  );
}
