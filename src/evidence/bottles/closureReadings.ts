// What the CTD read when a bottle closed: as written beside the bottle, or looked up on the cast's up leg.
import { believablePressure } from "../../cast/believablePressure.js";
import type { Bottle, ClosureReading } from "../../cast/bottle.js";
import type { Cast, CellColumns, CellName } from "../../cast/cast.js";
import { indexOfDeepest } from "../../cast/indexOfDeepest.js";

/** Half-width of the pressure interval whose scans are averaged, dbar (common practice, no source). */
const halfWidth_dbar = 0.5;
/** A scan further than this from the closure pressure is of other water, dbar. */
const furthest_dbar = 5;

/** What a cell read at the closure of a bottle; undefined where neither the bottle nor the cast tells. */
export type ClosureReader = (bottle: Bottle, cell: CellName) => ClosureReading | undefined;

/**
 * The readings of one cell at the closure of a bottle.
 * @returns undefined where neither the bottle nor the cast tells
 */
export function closureReading(
  bottle: Bottle,
  cell: CellName,
  cast: Cast | undefined,
): ClosureReading | undefined {
  return closureReader(cast)(bottle, cell);
}

/** `closureReading` for many bottles of one cast: its up leg is put in order of pressure once. */
export function closureReader(cast: Cast | undefined): ClosureReader {
  let upLeg: UpLeg | undefined;
  return (bottle, cell) => {
    const written = bottle.ctd?.[cell];
    if (written !== undefined) return complete(written);
    const columns = cast?.columns[cell];
    if (cast === undefined || columns === undefined) return undefined;
    upLeg ??= byPressure(cast.columns.pressure_dbar);
    return complete(readUpLeg(bottle.pressure_dbar, upLeg, columns));
  };
}

function complete(reading: ClosureReading): ClosureReading | undefined {
  const { temperature_C, conductivity_mS_cm } = reading;
  return Number.isFinite(temperature_C) && conductivity_mS_cm > 0 && conductivity_mS_cm < Infinity
    ? reading
    : undefined;
}

/** The scans from the turn on, dbar by dbar. */
interface UpLeg {
  readonly pressure: Float64Array;
  readonly scans: Uint32Array;
  /** Where in `scans` each dbar begins; one more entry than there are. */
  readonly starts: Uint32Array;
}

function byPressure(column: Float64Array): UpLeg {
  const { pressure } = believablePressure(column);
  const turn = indexOfDeepest(pressure);
  const starts = new Uint32Array(dbarOf(pressure[turn]! || 0) + 2);
  for (let i = turn; i < pressure.length; i++) {
    if (Number.isFinite(pressure[i]!)) starts[dbarOf(pressure[i]!) + 1]!++;
  }
  for (let dbar = 1; dbar < starts.length; dbar++) starts[dbar]! += starts[dbar - 1]!;
  const next = starts.slice();
  const scans = new Uint32Array(starts.at(-1)!);
  for (let i = turn; i < pressure.length; i++) {
    if (Number.isFinite(pressure[i]!)) scans[next[dbarOf(pressure[i]!)]!++] = i;
  }
  return { pressure, scans, starts };
}

/** The dbar a pressure lies in; those of air with the first. */
function dbarOf(pressure: number): number {
  return Math.max(0, Math.floor(pressure));
}

function readUpLeg(
  closure_dbar: number,
  { pressure, scans, starts }: UpLeg,
  { temperature_C, conductivity_mS_cm }: CellColumns,
): ClosureReading {
  const deepest = starts.length - 1;
  const from = starts[Math.min(deepest, dbarOf(closure_dbar - furthest_dbar))] ?? 0;
  const to = starts[Math.min(deepest, dbarOf(closure_dbar + furthest_dbar) + 1)] ?? 0;
  let nearest = -1;
  let away = Number.POSITIVE_INFINITY;
  let count = 0;
  let temperature = 0;
  let conductivity = 0;
  for (let k = from; k < to; k++) {
    const i = scans[k]!;
    const distance = Math.abs(pressure[i]! - closure_dbar);
    if (distance < away) {
      away = distance;
      nearest = i;
    }
    if (!(distance <= halfWidth_dbar && conductivity_mS_cm[i]! > 0 && temperature_C[i]! > -5)) {
      continue;
    }
    count++;
    temperature += temperature_C[i]!;
    conductivity += conductivity_mS_cm[i]!;
  }
  if (count > 0) {
    return { temperature_C: temperature / count, conductivity_mS_cm: conductivity / count };
  }
  const close = away <= furthest_dbar;
  return {
    temperature_C: close ? temperature_C[nearest]! : Number.NaN,
    conductivity_mS_cm: close ? conductivity_mS_cm[nearest]! : Number.NaN,
  };
}
