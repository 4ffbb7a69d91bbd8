// The design row of an observation: its weights on the state vector, given the place of a change within the cast.
import type { CellName, LegName } from "../cast/cast.js";
import { spFromCFirstDerivatives } from "../seawater/index.js";
import { type CellSlot, cellIndex, type Layout, sharedIndex } from "./layout.js";
import type { Observation } from "./observation.js";
import {
  atTheTurn,
  type CastPath,
  type ChangePlaces,
  type PlaceOnCast,
  shareLeft,
  shareOfPath,
} from "./placesOnCast.js";

/** Whether water at this place was measured before or after the film came. */
export function filmSlotAt(leg: LegName, pressure_dbar: number, onset: PlaceOnCast): CellSlot {
  if (leg !== onset.leg) return leg === "down" ? "filmDown" : "filmUp";
  const reached =
    leg === "down" ? pressure_dbar >= onset.pressure_dbar : pressure_dbar <= onset.pressure_dbar;
  return reached ? "filmUp" : "filmDown";
}

/** @param path of the cast, if a film may have grown within it */
export function designRow(
  layout: Layout,
  observation: Observation,
  { onsets = {}, transient, front }: ChangePlaces,
  path?: CastPath,
): Float64Array {
  const row = new Float64Array(layout.size);
  const { design, pressure_dbar } = observation;
  const sensitivity = gainSensitivity(observation);
  for (const term of design) {
    if ("shared" in term) {
      const isBelow = term.shared === front?.shared && pressure_dbar >= front.above_dbar;
      if (!isBelow) row[sharedIndex(layout, term.shared)]! += term.weight;
    } else if ("slot" in term) {
      row[cellIndex(layout, term.slot.cell, term.slot.slot)]! += term.weight;
    } else {
      const { cell, leg } = term.gain;
      const addWeight = (slot: CellSlot, weight: number) => {
        row[cellIndex(layout, cell, slot)]! += term.weight * weight;
      };
      addWeight("clean", 1);
      const film = filmSlotAt(leg, pressure_dbar, onsets[cell] ?? atTheTurn);
      addWeight(film, 1);
      if (path !== undefined) {
        // Growth since the start of the down leg, or still to come until the end of the up leg.
        const share = shareOfPath(path, leg, pressure_dbar);
        addWeight("filmRate", path.days * (film === "filmDown" ? share : share - 1));
      }
      addWeight("pressure", pressure_dbar / 1000);
      addWeight("thermometer", sensitivity.perMillikelvin);
      addWeight("offset", sensitivity.perMicrosiemens);
      if (transient?.cell === cell) addWeight("event", shareLeft(transient, leg, pressure_dbar));
    }
  }
  return row;
}

/**
 * The effect of a thermometer error of 1 mK and of an offset of 1 uS/cm on a gain in the water of an observation, ppm; 0 if
 * the water is unknown.
 */
export function gainSensitivity({
  water,
  pressure_dbar,
}: Pick<Observation, "water" | "pressure_dbar">): {
  readonly perMillikelvin: number;
  readonly perMicrosiemens: number;
} {
  if (water === undefined) return { perMillikelvin: 0, perMicrosiemens: 0 };
  const { conductivity_mS_cm: c, temperature_C: t } = water;
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, t, pressure_dbar);
  const perMillikelvin = (1e3 * dSpDt) / (c * dSpDc);
  return {
    perMillikelvin: Number.isFinite(perMillikelvin) ? perMillikelvin : 0,
    perMicrosiemens: c > 0 ? 1e3 / c : 0,
  };
}

/** The row of a cell's gain at atmospheric pressure, at the start of the down leg or at the end of the up leg. */
export function gainRow(layout: Layout, cell: CellName, leg: LegName): Float64Array {
  const row = new Float64Array(layout.size);
  row[cellIndex(layout, cell, "clean")] = 1;
  row[cellIndex(layout, cell, leg === "down" ? "filmDown" : "filmUp")] = 1;
  return row;
}

/** Water as read by a cell. */
export interface WaterRead {
  readonly pressure_dbar: number;
  readonly conductivity_mS_cm: number;
  readonly temperature_C: number;
}

/** The row of the total error of a cell and its thermometer in given water, before or after the changes on the cast. */
export function errorRow(
  layout: Layout,
  cell: CellName,
  leg: LegName,
  { pressure_dbar, ...water }: WaterRead,
): Float64Array {
  const row = gainRow(layout, cell, leg);
  const { perMillikelvin, perMicrosiemens } = gainSensitivity({ pressure_dbar, water });
  row[cellIndex(layout, cell, "pressure")] = pressure_dbar / 1000;
  row[cellIndex(layout, cell, "thermometer")] = perMillikelvin;
  row[cellIndex(layout, cell, "offset")] = perMicrosiemens;
  return row;
}

/** The row of one coefficient of a cell. */
export function slotRow(layout: Layout, cell: CellName, slot: CellSlot): Float64Array {
  const row = new Float64Array(layout.size);
  row[cellIndex(layout, cell, slot)] = 1;
  return row;
}
