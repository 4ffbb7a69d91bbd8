// A working copy of a cast in which conductivity is brought to the time of the temperature and the heat of the
// cell's wall is taken out. The cast as read stays as it is.

import type { Cast, CellColumns, CellName } from "../cast/cast.js";
import { limitsOf, plausibleColumn, plausibleLimits } from "../cast/plausibleReading.js";
import type { Legs } from "../cast/splitLegs.js";
import { spFromC, spFromCFirstDerivatives } from "../seawater/index.js";
import type { CellLag } from "./lag/lagPrior.js";

/** The corrections for the readings of a cell. An absent part is not corrected. */
export interface CellResponseCorrection {
  /** Delay of conductivity relative to temperature, s. */
  readonly alignment_s?: number;
  readonly thermalLag?: CellLag;
}

/** A cell in air reads about 0, of either sign; fill values such as -9.99 lie outside (judgement). */
const inWaterOrAir_mS_cm = limitsOf(-1, plausibleLimits.conductivity_mS_cm.most);

export type ResponseCorrection = Readonly<Partial<Record<CellName, CellResponseCorrection>>>;

/**
 * A copy of a cast with conductivity aligned and the thermal lag removed.
 * @param legs as from `splitLegs`, for the time of each scan
 * @returns a new cast with new columns of conductivity, NaN if no cell can have read that; everything else is shared with
 *   the cast as read
 * @throws RangeError if the cast has neither times nor a sample rate, or an alignment or a lag is impossible
 * Alignment: a cubic through four scans, a straight line beside a gap. Thermal lag: the recursive filter of the bilinear
 * rule [MorisonEtAl1994], with the actual time of each scan.
 */
export function removeSensorResponse(
  cast: Cast,
  { clock }: Legs,
  correction: ResponseCorrection,
): Cast {
  if (clock.from === "pressure") {
    throw new RangeError(
      `cast ${cast.id}: expected times or a sample rate, found neither: give the cast its sampleRate_Hz`,
    );
  }
  const corrected = (cell: CellName): CellColumns | undefined => {
    const readings = cast.columns[cell];
    const own = correction[cell];
    if (readings === undefined || own === undefined) return readings;
    check(cast, own);
    return correctedCell(readings, cast.columns.pressure_dbar, clock.seconds, own);
  };
  const secondary = corrected("secondary");
  return {
    ...cast,
    columns: {
      ...cast.columns,
      primary: corrected("primary")!,
      ...(secondary === undefined ? {} : { secondary }),
    },
  };
}

function check({ id }: Cast, { alignment_s = 0, thermalLag }: CellResponseCorrection): void {
  if (!Number.isFinite(alignment_s)) {
    throw new RangeError(`cast ${id}: expected an alignment in seconds, found ${alignment_s}`);
  }
  if (thermalLag === undefined) return;
  const { alpha, tau_s } = thermalLag;
  if (!Number.isFinite(alpha) || !(tau_s > 0 && Number.isFinite(tau_s))) {
    throw new RangeError(
      `cast ${id}: expected a thermal lag with tau_s above 0, found alpha ${alpha}, tau_s ${tau_s}`,
    );
  }
}

function correctedCell(
  { temperature_C, conductivity_mS_cm: asRead }: CellColumns,
  pressure_dbar: Float64Array,
  seconds: Float64Array,
  { alignment_s = 0, thermalLag }: CellResponseCorrection,
): CellColumns {
  const conductivity_mS_cm = plausibleColumn(asRead, inWaterOrAir_mS_cm);
  const conductivity =
    alignment_s === 0
      ? Float64Array.from(conductivity_mS_cm)
      : advanced(conductivity_mS_cm, seconds, alignment_s);
  if (thermalLag !== undefined) {
    const outside = plausibleColumn(temperature_C, plausibleLimits.temperature_C);
    const outsideLessInside = cellTemperatureLag(outside, seconds, thermalLag);
    for (let i = 0; i < conductivity.length; i++) {
      const c = conductivity[i]!;
      if (Number.isNaN(c) || outsideLessInside[i] === 0) continue;
      const perKelvin = conductivityPerKelvin(c, temperature_C[i]!, pressure_dbar[i]!);
      conductivity[i] = c + perKelvin * outsideLessInside[i]!;
    }
  }
  return { temperature_C, conductivity_mS_cm: conductivity };
}

/**
 * Temperature outside the cell minus that of the water in it, K; after a gap it continues from its last value. Transfer
 * function alpha s tau / (1 + s tau) [LueckPicklo1990]; by the bilinear rule [MorisonEtAl1994].
 */
export function cellTemperatureLag(
  temperature_C: Float64Array,
  seconds: Float64Array,
  { alpha, tau_s }: CellLag,
): Float64Array {
  const lag = new Float64Array(temperature_C.length);
  let before = -1;
  let value = 0;
  for (let n = 0; n < lag.length; n++) {
    const t = temperature_C[n]!;
    if (Number.isNaN(t)) continue;
    if (before >= 0) {
      const half = (seconds[n]! - seconds[before]!) / 2;
      value =
        ((tau_s - half) * value + alpha * tau_s * (t - temperature_C[before]!)) / (tau_s + half);
    }
    lag[n] = value;
    before = n;
  }
  return lag;
}

/** dC/dt at constant salinity and pressure, mS/cm per K; 0 if the reading is not one of sea water. */
function conductivityPerKelvin(c: number, t: number, p: number): number {
  if (!(spFromC(c, t, p) > 0)) return 0;
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, t, p);
  const perKelvin = -dSpDt / dSpDc;
  return Number.isFinite(perKelvin) ? perKelvin : 0;
}

/** The column shifted to this many seconds earlier; the ends without a reading are missing. */
function advanced(column: Float64Array, seconds: Float64Array, later_s: number): Float64Array {
  const n = column.length;
  const moved = new Float64Array(n).fill(Number.NaN);
  let j = 0;
  for (let i = 0; i < n; i++) {
    const at = seconds[i]! + later_s;
    while (j < n - 2 && seconds[j + 1]! <= at) j++;
    while (j > 0 && seconds[j]! > at) j--;
    const step = seconds[j + 1]! - seconds[j]!;
    const f = (at - seconds[j]!) / step;
    if (f >= 0 && f <= 1) moved[i] = between(column, j, f);
  }
  return moved;
}

function between(column: Float64Array, j: number, f: number): number {
  const [a, b, c, d] = [column[j - 1], column[j]!, column[j + 1]!, column[j + 2]];
  if (f === 0) return b;
  if (f === 1) return c;
  if (a === undefined || d === undefined || Number.isNaN(a + d)) return b + f * (c - b);
  return (
    // Lagrange's cubic through four equally spaced values: mathematics.
    (-f * (f - 1) * (f - 2) * a) / 6 +
    ((f + 1) * (f - 1) * (f - 2) * b) / 2 -
    ((f + 1) * f * (f - 2) * c) / 2 +
    ((f + 1) * f * (f - 1) * d) / 6
  );
}
