// Reference bottles beside the cells, before any is judged: y = ln(C_ctd / C_ref), C_ref being the conductivity that
// the laboratory salinity has at the CTD's temperature and pressure.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import type { LeftOut, Observation } from "../../model/observation.js";
import { cFromSp, spFromCFirstDerivatives } from "../../seawater/index.js";
import { bottleStandardDeviation, laboratorySalinity } from "./bottleNoise.js";
import { type ClosureReader, closureReader } from "./closureReadings.js";

export interface BottleResidual {
  readonly bottle: Bottle;
  readonly cell: CellName;
  /** y, ppm. */
  readonly residual: number;
  /** ppm. */
  readonly sigma: number;
  /** The laboratory's part of it, ppm. */
  readonly laboratory: number;
  /** ppm per dbar of wake. */
  readonly perWake: number;
  readonly water: NonNullable<Observation["water"]>;
}

export interface BottleResiduals {
  readonly residuals: readonly BottleResidual[];
  readonly leftOut: readonly LeftOut[];
  readonly notes: readonly string[];
}

/**
 * The bottles of one cast against the first cell that was read at each closure.
 * @param cells     those to hold the bottles against, the first choice first
 * @param cast      its scans, for bottles without CTD readings of their own
 * @param gradients of salinity at each bottle, per dbar, as from `salinityGradients`
 */
export function bottleResiduals(
  bottles: readonly Bottle[],
  cells: readonly CellName[],
  cast: Cast | undefined,
  gradients: readonly number[],
): BottleResiduals {
  const leftOut: LeftOut[] = [];
  const notes: string[] = [];
  const unmeasured = bottles.filter(({ salinity }) => !Number.isFinite(salinity)).length;
  if (unmeasured > 0) {
    notes.push(`${unmeasured} of ${bottles.length} bottles have no laboratory salinity`);
  }
  const readingOf = closureReader(cast);
  const residuals: BottleResidual[] = [];
  for (const [i, bottle] of bottles.entries()) {
    if (!Number.isFinite(bottle.salinity)) continue;
    const found = residualOf(bottle, cells, readingOf, gradients[i]!);
    if (typeof found === "string") leftOut.push({ what: bottleLabel(bottle), why: found });
    else residuals.push(found);
  }
  return { residuals, leftOut, notes };
}

/** The bottle as a residual with its standard deviation, or why it cannot be used. */
function residualOf(
  bottle: Bottle,
  cells: readonly CellName[],
  readingOf: ClosureReader,
  gradient: number,
): BottleResidual | string {
  if (bottle.flag === 3) return "laboratory salinity flagged questionable in the file";
  if (bottle.flag === 4) return "laboratory salinity flagged bad in the file";
  if (bottle.bottleFlag === 3) return "bottle flagged leaking in the file";
  if (bottle.bottleFlag === 4) return "bottle flagged as not tripped correctly in the file";
  if (!Number.isFinite(bottle.pressure_dbar)) return "no pressure at closure";
  for (const cell of cells) {
    const reading = readingOf(bottle, cell);
    if (reading === undefined) continue;
    const { temperature_C: t, conductivity_mS_cm: c } = reading;
    const reference = cFromSp(bottle.salinity, t, bottle.pressure_dbar);
    if (!(reference > 0))
      return `no sea water has salinity ${bottle.salinity} at this temperature and pressure`;
    // At the saltier of the two, so that no stray fresh bottle widens its own error until it passes.
    const saltier = Math.max(c, reference);
    const { dSpDc } = spFromCFirstDerivatives(saltier, t, bottle.pressure_dbar);
    const perSalinity = 1e6 / (saltier * dSpDc);
    const residual = 1e6 * Math.log(c / reference);
    const sigma = perSalinity * bottleStandardDeviation(gradient);
    const laboratory = perSalinity * laboratorySalinity;
    if (!(Number.isFinite(residual) && sigma > 0 && sigma < Infinity)) {
      return `no sea water of ${t} degC and ${bottle.pressure_dbar} dbar has a conductivity of ${c} mS/cm`;
    }
    return {
      bottle,
      cell,
      residual,
      sigma,
      laboratory,
      perWake: -perSalinity * gradient,
      water: reading,
    };
  }
  return "no CTD reading at closure";
}

/** For a person: "bottle 7 at 1250 dbar". */
export function bottleLabel(bottle: Bottle): string {
  return `bottle ${bottle.bottle} at ${bottle.pressure_dbar.toFixed(0)} dbar`;
}
