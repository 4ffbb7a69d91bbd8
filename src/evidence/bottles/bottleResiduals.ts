// Reference bottles compared with the cells, before any check: y = ln(C_ctd / C_ref). C_ref is the conductivity of the
// laboratory salinity at the CTD's temperature and pressure.
import type { Bottle } from "../../cast/bottle.js";
import type { CellName } from "../../cast/cast.js";
import type { LeftOut, Observation } from "../../model/observation.js";
import { cFromSp, spFromCFirstDerivatives } from "../../seawater/index.js";
import { laboratorySalinity, mismatchesOnTheFly, mismatchSalinity } from "./bottleNoise.js";
import type { Closure } from "./closure.js";
import type { ClosureReader, ClosureSettings } from "./closureReadings.js";

export interface BottleComparison {
  readonly bottle: Bottle;
  readonly cell: CellName;
  /** y, ppm. */
  readonly residual: number;
  /** Usual standard deviation of the laboratory's error, ppm. */
  readonly laboratory: number;
  /** Usual standard deviation from wake and closure in the gradient of salinity, ppm. */
  readonly gradient: number;
  /** Uncertainty of the reading: noise, swell and remaining thermal lag, ppm. */
  readonly reading: number;
  /** Effect of heat in the outer parts of the cell on y, ppm; from `Closure`. */
  readonly outerHeat_ppm: number;
  /** Change of y if the bottle holds water from one dbar deeper, ppm per dbar. */
  readonly perWake: number;
  readonly water: NonNullable<Observation["water"]>;
}

/** One bottle compared with every cell that was read at its closure. */
export type CellComparisons = readonly BottleComparison[];

export interface BottleResiduals {
  /** One for each usable bottle; within each, the first choice of cell first. */
  readonly residuals: readonly CellComparisons[];
  readonly leftOut: readonly LeftOut[];
  readonly notes: readonly string[];
}

/** Inputs beside the bottles and the scans. */
export interface BottleSettings extends ClosureSettings {
  /** The reason why a bottle's salinity is not its own, as from `copiedSalinities`. */
  readonly copied?: ReadonlyMap<Bottle, string>;
}

/**
 * The bottles of one cast compared with each cell that was read at closure.
 * @param cells     cells to compare with, the first choice first
 * @param reader    of the cells at closure, as from `closureReader` for all bottles
 * @param gradients of salinity at each bottle, per dbar, as from `salinityGradients`
 * @param copied    the reason why a bottle's salinity is not its own, as from `copiedSalinities`
 */
export function bottleResiduals(
  bottles: readonly Bottle[],
  cells: readonly CellName[],
  reader: ClosureReader,
  gradients: readonly number[],
  copied?: ReadonlyMap<Bottle, string>,
): BottleResiduals {
  const leftOut: LeftOut[] = [];
  const unmeasured = bottles.filter(({ salinity }) => !Number.isFinite(salinity)).length;
  const residuals: CellComparisons[] = [];
  for (const [i, bottle] of bottles.entries()) {
    if (!Number.isFinite(bottle.salinity)) continue;
    const why =
      flagged(bottle) ?? copied?.get(bottle) ?? contradicted(reader.contradiction(bottle));
    const found = why ?? besideCells(bottle, cells, reader.of, gradients[i]!);
    if (typeof found === "string") leftOut.push({ what: bottleLabel(bottle), why: found });
    else residuals.push(found);
  }
  const notes =
    unmeasured > 0
      ? [`${unmeasured} of ${bottles.length} bottles have no laboratory salinity`]
      : [];
  return { residuals, leftOut, notes: [...notes, ...reader.notes] };
}

/** The reason in the file itself why a bottle cannot be used. */
function flagged(bottle: Bottle): string | undefined {
  // WOCE quality codes of water samples and of bottles [CCHDO2022].
  if (bottle.flag === 3) return "laboratory salinity flagged questionable in the file";
  if (bottle.flag === 4) return "laboratory salinity flagged bad in the file";
  if (bottle.bottleFlag === 3) return "bottle flagged leaking in the file";
  if (bottle.bottleFlag === 4) return "bottle flagged as not tripped correctly in the file";
  return Number.isFinite(bottle.pressure_dbar) ? undefined : "no pressure at closure";
}

function contradicted(why: string | undefined): string | undefined {
  return why && `${why}: tripped at another place, or a wrong label or time`;
}

/** The bottle compared with each cell, or the reason why it cannot be used. */
function besideCells(
  bottle: Bottle,
  cells: readonly CellName[],
  readingOf: (bottle: Bottle, cell: CellName) => Closure | undefined,
  gradient: number,
): CellComparisons | string {
  const found: BottleComparison[] = [];
  let why = "no CTD reading at closure";
  for (const cell of cells) {
    const reading = readingOf(bottle, cell);
    const residual = reading && residualOf(bottle, cell, reading, gradient);
    if (typeof residual === "string") why = residual;
    else if (residual !== undefined) found.push(residual);
  }
  return found.length > 0 ? found : why;
}

/** The bottle as a residual with its standard deviation, or the reason why there is none. */
function residualOf(
  bottle: Bottle,
  cell: CellName,
  closure: Closure,
  gradient: number,
): BottleComparison | string {
  const { temperature_C: t, conductivity_mS_cm: c, pressure_dbar: p, how } = closure;
  const reference = cFromSp(bottle.salinity, t, p);
  if (!(reference > 0)) {
    return `no sea water has salinity ${bottle.salinity} at this temperature and pressure`;
  }
  // At the higher of the two salinities. So a bottle that is far too fresh does not increase its own error until it is
  // accepted.
  const saltier = Math.max(c, reference);
  const { dSpDc } = spFromCFirstDerivatives(saltier, t, p);
  const perSalinity = 1e6 / (saltier * dSpDc);
  const residual = 1e6 * Math.log(c / reference);
  const mismatches = how === "moving" ? mismatchesOnTheFly : 1;
  const laboratory = perSalinity * laboratorySalinity;
  const mismatch = perSalinity * mismatchSalinity(gradient, mismatches);
  if (!(Number.isFinite(residual) && laboratory > 0 && laboratory + mismatch < Infinity)) {
    return `no sea water of ${t} degC and ${bottle.pressure_dbar} dbar has a conductivity of ${c} mS/cm`;
  }
  return {
    bottle,
    cell,
    residual,
    laboratory,
    gradient: mismatch,
    reading: closure.uncertainty_ppm,
    outerHeat_ppm: closure.outerHeat_ppm,
    perWake: -perSalinity * gradient,
    water: { temperature_C: t, conductivity_mS_cm: c },
  };
}

/** Text for a person: "bottle 7 at 1250 dbar". */
export function bottleLabel(bottle: Bottle): string {
  return `bottle ${bottle.bottle} at ${bottle.pressure_dbar.toFixed(0)} dbar`;
}
