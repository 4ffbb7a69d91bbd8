// One reading from the scans at a closure: medians, so that spikes and swell have no effect.
import type { CellColumns } from "../../cast/cast.js";
import type { CellLag } from "../../response/lag/lagPrior.js";
import { cFromSp, spFromC, spFromCFirstDerivatives } from "../../seawater/index.js";
import { madScale } from "../../statistics/madScale.js";
import { median } from "../../statistics/robustCentre.js";
import type { Closure } from "./closure.js";
import { heatAtClosure } from "./closureLag.js";
import type { ClosureScans } from "./closureScans.js";
import type { UpScans } from "./upScans.js";

/** Scans nearer than half a wave of a common swell have correlated errors, s (judgement). */
const together_s = 4;
/** Standard deviation of a median relative to that of a mean, for normal errors: sqrt(pi / 2), mathematics. */
const medianError = 1.2533;
/** Sea water is never colder, degree C (judgement: some degrees below its freezing point). */
const coldest_C = -5;

/**
 * Salinity is computed scan by scan, from conductivity, temperature and pressure of the same water, because the swell moves
 * the package. The reading is its median, at the median temperature and pressure.
 * @returns undefined if no scan has a reading of sea water
 */
export function readScans(
  up: UpScans,
  { temperature_C, conductivity_mS_cm }: CellColumns,
  { how, scans }: ClosureScans,
  lag: CellLag | undefined,
): Closure | undefined {
  const { uncertainty_K, outer_K } = heatAtClosure(up, temperature_C, scans, lag);
  const salinities: number[] = [];
  const temperatures: number[] = [];
  const pressures: number[] = [];
  for (const scan of scans) {
    const [c, t, p] = [conductivity_mS_cm[scan]!, temperature_C[scan]!, up.pressure[scan]!];
    if (!(c > 0 && t > coldest_C)) continue;
    const salinity = spFromC(c, t, p);
    if (!Number.isFinite(salinity)) continue;
    salinities.push(salinity);
    temperatures.push(t);
    pressures.push(p);
  }
  const [salinity, t, p] = [median(salinities), median(temperatures), median(pressures)];
  const c = cFromSp(salinity, t, p);
  if (!(c > 0 && c < Infinity)) return undefined;
  const { dSpDc } = spFromCFirstDerivatives(c, t, p);
  const lasted_s = up.seconds[scans.at(-1)!]! - up.seconds[scans[0]!]!;
  const independent = Math.min(salinities.length, Math.max(1, lasted_s / together_s));
  const noise = (medianError * madScale(salinities, salinity)) / Math.sqrt(independent);
  return {
    temperature_C: t,
    conductivity_mS_cm: c,
    pressure_dbar: p,
    uncertainty_ppm:
      (1e6 / c) * Math.hypot(noise / dSpDc, conductivityPerKelvin(c, t, p) * uncertainty_K),
    outerHeat_ppm: (-1e6 / c) * conductivityPerKelvin(c, t, p) * outer_K,
    how,
  };
}

/** A reading that was written beside the bottle, with the uncertainty of the thermal lag at its closure. */
export function withLag(
  up: UpScans,
  { temperature_C }: CellColumns,
  { scans }: ClosureScans,
  written: Closure,
  lag: CellLag | undefined,
): Closure {
  const { uncertainty_K, outer_K } = heatAtClosure(up, temperature_C, scans, lag);
  const { conductivity_mS_cm: c, temperature_C: t, pressure_dbar: p } = written;
  const ppmPerKelvin = (1e6 / c) * conductivityPerKelvin(c, t, p);
  if (!Number.isFinite(ppmPerKelvin)) return written;
  return {
    ...written,
    uncertainty_ppm: ppmPerKelvin * uncertainty_K,
    outerHeat_ppm: -ppmPerKelvin * outer_K,
  };
}

/** dC/dT at one salinity and pressure, mS/cm per K. */
function conductivityPerKelvin(c: number, t: number, p: number): number {
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, t, p);
  return -dSpDt / dSpDc;
}
