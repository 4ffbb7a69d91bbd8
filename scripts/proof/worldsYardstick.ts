// Two plain yardsticks: A, the median of a cast's deep residuals at the closure of its bottles; B, the median of A
// over the last five casts that had bottles. What anybody would do with a spreadsheet.
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cast, CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { cFromSp } from "../../src/seawater/index.js";

/** Deep is this and below; where a cast has no such bottle, the deepest third. */
const deep_dbar = 500;
/** The CTD's reading is the mean of so long before closure, s. */
const before_s = 5;
const castsOfB = 5;

export interface Yardsticks {
  /** ppm, by cast; NaN where no bottle was measured up to then. */
  readonly ofCast: readonly number[];
  readonly ofLastFive: readonly number[];
}

export function yardsticks(cruise: Cruise, cell: CellName): Yardsticks {
  const known: number[] = [];
  const rows = cruise.casts.map(({ id, data }) => {
    const bottles = cruise.bottles.filter(({ cast }) => cast === id);
    const own = data === undefined ? Number.NaN : medianResidual(data, cell, bottles);
    if (Number.isFinite(own)) known.push(own);
    return { a: known.at(-1) ?? Number.NaN, b: median(known.slice(-castsOfB)) };
  });
  return { ofCast: rows.map(({ a }) => a), ofLastFive: rows.map(({ b }) => b) };
}

function medianResidual(cast: Cast, cell: CellName, bottles: readonly Bottle[]): number {
  const measured = bottles.filter(
    ({ salinity, time_s, flag }) => Number.isFinite(salinity) && time_s !== undefined && flag !== 4,
  );
  const deep = measured.filter(({ pressure_dbar }) => pressure_dbar >= deep_dbar);
  const deepest = measured
    .toSorted((x, y) => y.pressure_dbar - x.pressure_dbar)
    .slice(0, Math.ceil(measured.length / 3));
  return median(
    (deep.length > 0 ? deep : deepest)
      .map((bottle) => residual(cast, cell, bottle))
      .filter(Number.isFinite),
  );
}

/** ln(C of the CTD / C of the sample at the CTD's temperature and pressure), ppm. */
function residual({ columns }: Cast, cell: CellName, { time_s, salinity }: Bottle): number {
  const { conductivity_mS_cm, temperature_C } = columns[cell]!;
  const { pressure_dbar } = columns;
  const time = columns.time_s!;
  let n = 0;
  const sums = { c: 0, t: 0, p: 0 };
  for (let i = firstFrom(time, time_s! - before_s); i < time.length && time[i]! <= time_s!; i++) {
    const c = conductivity_mS_cm[i]!;
    const t = temperature_C[i]!;
    const p = pressure_dbar[i]!;
    if (Number.isNaN(c + t + p)) continue;
    n++;
    sums.c += c;
    sums.t += t;
    sums.p += p;
  }
  return 1e6 * Math.log(sums.c / n / cFromSp(salinity, sums.t / n, sums.p / n));
}

/** The first scan at or after a time. */
function firstFrom(time: Float64Array, wanted: number): number {
  let low = 0;
  let high = time.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (time[middle]! < wanted) low = middle + 1;
    else high = middle;
  }
  return low;
}

function median(values: readonly number[]): number {
  const sorted = values.toSorted((x, y) => x - y);
  const { length } = sorted;
  if (length === 0) return Number.NaN;
  return (sorted[Math.floor((length - 1) / 2)]! + sorted[Math.ceil((length - 1) / 2)]!) / 2;
}
