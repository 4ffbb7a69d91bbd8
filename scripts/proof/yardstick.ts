// The common way, as a yardstick: a cast's gain is the mean of its deep residuals after bottles beyond 2.8
// standard deviations are rejected until none goes [McTaggartEtAl2010].
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cast, CellName } from "../../src/cast/cast.js";
import { closureReading } from "../../src/evidence/bottles/closureReadings.js";
import { cFromSp } from "../../src/seawater/index.js";

const rejectBeyond = 2.8;
/** Deep is this and below; where a cast has fewer than three such bottles, all count. */
const deep_dbar = 500;

/** @returns the gain in ppm, NaN where the cast has no bottle */
export function meanAfterRejection(
  bottles: readonly Bottle[],
  cell: CellName,
  cast: Cast | undefined,
): number {
  const residuals = bottles.flatMap((bottle) => {
    const reading = closureReading(bottle, cell, cast);
    if (reading === undefined) return [];
    const reference = cFromSp(bottle.salinity, reading.temperature_C, bottle.pressure_dbar);
    const value = 1e6 * Math.log(reading.conductivity_mS_cm / reference);
    return Number.isFinite(value) ? [{ value, pressure: bottle.pressure_dbar }] : [];
  });
  const deep = residuals.filter(({ pressure }) => pressure >= deep_dbar);
  return rejected((deep.length >= 3 ? deep : residuals).map(({ value }) => value));
}

function rejected(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const sd = Math.sqrt(
    values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / Math.max(1, values.length - 1),
  );
  const kept = values.filter((value) => Math.abs(value - mean) <= rejectBeyond * sd);
  return kept.length === values.length || kept.length < 2 ? mean : rejected(kept);
}
