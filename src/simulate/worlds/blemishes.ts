// Faults of transmission and electronics: spikes and missing scans.
// Numbers without a source are judgement: transmission from faultless to hardly usable.
import type { CastColumns, CellColumns } from "../../cast/cast.js";
import type { RandomStream } from "../random.js";
import { betweenLog, eitherSign, happens, oneOf, wholeBetween } from "./draws.js";

export interface Blemishes {
  /** Share of scans with a spike, in each column. */
  readonly spikes: number;
  /** Most gaps in a cast. */
  readonly gaps: number;
  /** True: a missing scan is a row of NaN. False: the row is absent. */
  readonly rowsAreThere: boolean;
}

export function drawBlemishes(random: RandomStream): Blemishes {
  return {
    spikes: betweenLog(random, 2e-6, 2e-4),
    gaps: wholeBetween(random, 0, 4),
    rowsAreThere: happens(random, 0.5),
  };
}

/** @returns new columns; the given ones are not changed */
export function blemished(
  random: RandomStream,
  { spikes, gaps, rowsAreThere }: Blemishes,
  columns: CastColumns,
): CastColumns {
  const n = columns.pressure_dbar.length;
  const spiked = (column: Float64Array, largest: number) => {
    const out = column.slice();
    const count = wholeBetween(random, 0, Math.round(2 * spikes * n));
    for (let k = 0; k < count; k++) {
      out[wholeBetween(random, 0, n - 1)]! +=
        eitherSign(random) * betweenLog(random, 0.01, 1) * largest;
    }
    return out;
  };
  const missing = new Uint8Array(n);
  for (let g = wholeBetween(random, 0, gaps); g > 0; g--) {
    const length = oneOf(random, [1, 2, 5, 12, 30]);
    // The first scan is kept: time_s counts from it.
    const from = wholeBetween(random, 1, n - 1);
    missing.fill(1, from, Math.min(n, from + length));
  }
  const without = (column: Float64Array) =>
    rowsAreThere
      ? column.map((value, i) => (missing[i] === 1 ? Number.NaN : value))
      : column.filter((_, i) => missing[i] === 0);
  const cell = ({ temperature_C, conductivity_mS_cm }: CellColumns): CellColumns => ({
    temperature_C: without(spiked(temperature_C, 2)),
    conductivity_mS_cm: without(spiked(conductivity_mS_cm, 3)),
  });
  const time = columns.time_s!;
  return {
    time_s: rowsAreThere ? time : without(time),
    pressure_dbar: without(spiked(columns.pressure_dbar, 20)),
    primary: cell(columns.primary),
    ...(columns.secondary === undefined ? {} : { secondary: cell(columns.secondary) }),
    others: {},
  };
}
