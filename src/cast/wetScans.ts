// The scans in the water: a cell in air reads almost nothing.
import { quantile } from "../statistics/robustCentre.js";
import type { CastColumns } from "./cast.js";

/** A cell that reads less than this share of its reading in the cast's water is in air. */
const airShare = 0.01;
/** Deepest pressure of a scan in air, dbar: a low reading further down is a fault of the cell. */
export const airEnds_dbar = 5;
/** The reading in the water is taken from about this many scans, evenly spaced. */
const sample = 2000;

/**
 * A test for scans in air, from the first cell with readings.
 * @param pressure dbar, NaN if missing
 * @returns true for a scan with the cell in air; always false without conductivity
 */
export function inAirTest(columns: CastColumns, pressure: Float64Array): (scan: number) => boolean {
  for (const cell of [columns.primary, columns.secondary]) {
    const conductivity = cell?.conductivity_mS_cm;
    if (conductivity === undefined) continue;
    const stride = Math.max(1, Math.floor(conductivity.length / sample));
    const wet = quantile(
      Array.from(
        { length: Math.ceil(conductivity.length / stride) },
        (_, k) => conductivity[k * stride]!,
      ),
      0.9,
    );
    if (wet > 0) return (i) => pressure[i]! < airEnds_dbar && conductivity[i]! < airShare * wet;
  }
  return () => false;
}
