// A corrected copy of a cast, without its gain errors. The cast itself is not changed.
import type { Cast, CellColumns, CellName, LegName } from "../cast/cast.js";
import { filmSlotAt } from "../model/designRow.js";
import { atTheTurn } from "../model/placesOnCast.js";
import { salinityError } from "../model/salinityError.js";
import { spFromCColumn } from "../seawater/index.js";
import { errorSum, errorWeights } from "../track/errorComponent.js";
import type { CastCorrection, CellCorrection } from "./correctCruise.js";

/**
 * One cell of a corrected cast, one value a scan. Temperature is unchanged. Conductivity is the value that gives the right
 * salinity at that temperature, so that errors of cell and thermometer are corrected once, as their sum.
 */
export interface CorrectedCell extends CellColumns {
  /** PSS-78, from the corrected conductivity. */
  readonly salinity: Float64Array;
  /** Standard uncertainty of that salinity due to the correction, PSS-78. */
  readonly salinityStandardUncertainty: Float64Array;
}

export interface CorrectedCast {
  readonly cast: string;
  readonly pressure_dbar: Float64Array;
  readonly cells: Readonly<Partial<Record<CellName, CorrectedCell>>>;
}

/**
 * Conductivity divided by 1 + error, scan by scan, and salinity from it. The error depends on leg, onset and water: it
 * contains gain, pressure response, offset and the effect of the thermometer error.
 * @param correction of this cast, from `correctCruise`
 * @throws RangeError if the correction belongs to another cast
 */
export function correctCast(cast: Cast, correction: CastCorrection): CorrectedCast {
  if (cast.id !== correction.cast) {
    throw new RangeError(
      `expected the correction of cast ${cast.id}, found that of ${correction.cast}`,
    );
  }
  const { pressure_dbar, primary, secondary } = cast.columns;
  const turn = deepest(pressure_dbar);
  const cells: Partial<Record<CellName, CorrectedCell>> = {};
  for (const [cell, columns] of [
    ["primary", primary],
    ["secondary", secondary],
  ] as const) {
    const own = correction.cells[cell];
    if (columns !== undefined && own !== undefined) {
      cells[cell] = corrected(columns, pressure_dbar, turn, own);
    }
  }
  return { cast: cast.id, pressure_dbar: pressure_dbar.slice(), cells };
}

function corrected(
  { temperature_C, conductivity_mS_cm }: CellColumns,
  pressure_dbar: Float64Array,
  turn: number,
  correction: CellCorrection,
): CorrectedCell {
  const count = pressure_dbar.length;
  const conductivity = new Float64Array(count);
  const uncertainty = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const pressure = pressure_dbar[i]!;
    const leg: LegName = i <= turn ? "down" : "up";
    const after = filmSlotAt(leg, pressure, correction.onset ?? atTheTurn) === "filmUp";
    const weights = errorWeights({
      pressure_dbar: pressure,
      temperature_C: temperature_C[i]!,
      conductivity_mS_cm: conductivity_mS_cm[i]!,
    });
    const error = errorSum((after ? correction.up : correction.down).terms, weights);
    conductivity[i] = conductivity_mS_cm[i]! / (1 + 1e-6 * error.mean);
    uncertainty[i] = Math.sqrt(error.variance);
  }
  const salinity = spFromCColumn(conductivity, temperature_C, pressure_dbar);
  // The effect of a gain error is proportional to salinity, within a per cent or so in the ocean: docs/method.md. At SP 35,
  // by definition.
  const perPpm = Math.abs(salinityError(1)) / 35;
  for (let i = 0; i < count; i++) uncertainty[i]! *= perPpm * salinity[i]!;
  return {
    temperature_C: temperature_C.slice(),
    conductivity_mS_cm: conductivity,
    salinity,
    salinityStandardUncertainty: uncertainty,
  };
}

function deepest(pressure: Float64Array): number {
  let turn = 0;
  for (let i = 1; i < pressure.length; i++) {
    if (pressure[i]! > pressure[turn]! || Number.isNaN(pressure[turn])) turn = i;
  }
  return turn;
}
