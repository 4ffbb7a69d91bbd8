// Too little water through the cell: when the package stops, salinity settles by more, and for longer, than with the usual
// thermal lag. The wall stores heat [LueckPicklo1990]. With less flow more of it reaches the water, and old water stays
// longer [MorisonEtAl1994].
import type { CellColumns, CellName } from "../cast/cast.js";
import { spFromC, spFromCFirstDerivatives } from "../seawater/index.js";
import { madScale } from "../statistics/madScale.js";
import { weightedMedian } from "../statistics/weightedMedian.js";
import { placeOf } from "./describe.js";
import type { HealthFinding, Settling } from "./finding.js";
import { plausibleFor } from "./plausibleFor.js";
import type { Stop } from "./stops.js";
import type { WaterPart } from "./waterPart.js";

/** Largest time between scans, s, and fewest stops (judgement). */
const mostInterval_s = 2;
const leastStops = 4;
/**
 * Salinity soon after the start of the stop minus that later, s after the start (judgement: within, and beyond two time
 * constants of, the usual lag).
 */
const soon_s = [2, 7] as const;
const late_s = [18, 40] as const;
/** The usual lag [MorisonEtAl1994], integrated from this many seconds before the stop. */
const usual = { alpha: 0.0245, tau_s: 9.5 };
const before_s = 40;
/** Skip stops where the usual lag changes salinity by less than this, PSS-78 (judgement: about the noise of a mean). */
const leastSettling = 0.0003;
/** Least settling for a low flow, times the usual, and in standard errors above it (judgement). */
const tooMuch = 2.5;
const sure = 5;

const isConductivity = plausibleFor("conductivity");
const isTemperature = plausibleFor("temperature");

/**
 * Settling of salinity at stops, as a multiple of that from the usual thermal lag.
 * @param stops long enough to settle in, of the whole cast
 * @param twin the other cell, in the same water: then only the part that the two do not share counts
 * @returns undefined if fewer than four stops show it
 */
export function settlingAtStops(
  part: WaterPart,
  stops: readonly Stop[],
  readings: CellColumns,
  twin: CellColumns | undefined,
): Settling | undefined {
  if (part.interval_s > mostInterval_s) return undefined;
  const seen = stops.flatMap((stop) => {
    const own = settledBy(part, readings, stop);
    const other = twin === undefined ? 0 : settledBy(part, twin, stop);
    const settled = own - other;
    const expected = usuallySettledBy(part, readings, stop);
    return Math.abs(expected) > leastSettling && Number.isFinite(settled)
      ? [{ settled, expected }]
      : [];
  });
  if (seen.length < leastStops) return undefined;
  const slope = weightedMedian(
    seen.map(({ settled, expected }) => settled / expected),
    seen.map(({ expected }) => Math.abs(expected)),
  );
  const scatter = madScale(
    seen.map(({ settled, expected }) => settled - slope * expected),
    0,
  );
  const squares = seen.reduce((sum, { expected }) => sum + expected ** 2, 0);
  // The standard error of the median is 1.25 times that of the mean for normal errors.
  return {
    times: slope + (twin === undefined ? 0 : 1),
    // The error of a median is 1.25 times that of a mean, sqrt(pi / 2): mathematics.
    standardError: (1.25 * scatter) / Math.sqrt(squares),
    stops: seen.length,
  };
}

/**
 * @param alone result of the cell by itself
 * @param beside result without the part that the other cell shares: the water then cancels
 */
export function slowFlow(
  part: WaterPart,
  cell: CellName,
  alone: Settling | undefined,
  beside: Settling | undefined,
): readonly HealthFinding[] {
  const isSlow = (settling: Settling | undefined) =>
    settling !== undefined &&
    settling.times > tooMuch &&
    settling.times - 1 > sure * settling.standardError;
  const found = [beside, alone].find(isSlow);
  if (found === undefined) return [];
  const { times, standardError, stops } = found;
  const against = found === beside ? " (relative to the other cell)" : "";
  return [
    {
      kind: "slow-flow",
      cell,
      sensor: "conductivity",
      ...placeOf(part, part.from, part.to - 1),
      size: { value: times, unit: "times the usual thermal lag" },
      what: `At ${stops} stops the salinity of the ${cell} cell changes by ${times.toFixed(2)} ± ${standardError.toFixed(2)} times what the usual thermal lag explains${against}.`,
      mend: "Look at the pump, its power and the plumbing for a clog or air. Only then clean the cell.",
      serious: false,
    },
  ];
}

function settledBy(part: WaterPart, readings: CellColumns, { from, to }: Stop): number {
  const soon = meanSalinity(part, readings, from, to, soon_s);
  return soon - meanSalinity(part, readings, from, to, late_s);
}

/** Mean over the scans this many seconds after the start with possible readings; NaN if there are none. */
function meanSalinity(
  { columns, seconds }: WaterPart,
  { conductivity_mS_cm, temperature_C }: CellColumns,
  from: number,
  to: number,
  [begin, end]: readonly [number, number],
): number {
  let c = 0;
  let t = 0;
  let p = 0;
  let n = 0;
  for (let i = from; i < to; i++) {
    const since = seconds[i]! - seconds[from]!;
    if (since < begin) continue;
    if (since > end) break;
    if (!(isConductivity(conductivity_mS_cm[i]!) && isTemperature(temperature_C[i]!))) continue;
    c += conductivity_mS_cm[i]!;
    t += temperature_C[i]!;
    p += columns.pressure_dbar[i]!;
    n++;
  }
  return n === 0 ? Number.NaN : spFromC(c / n, t / n, p / n);
}

/**
 * The effect of the usual lag: salinity is off by dS/dt times the lag TT, which follows temperature with TT' = alpha t' -
 * TT / tau [LueckPicklo1990].
 */
function usuallySettledBy(
  { columns, seconds, interval_s }: WaterPart,
  { conductivity_mS_cm, temperature_C }: CellColumns,
  { from, to }: Stop,
): number {
  let i = from;
  while (i > 1 && seconds[from]! - seconds[i]! < before_s) i--;
  const kept = Math.exp(-interval_s / usual.tau_s);
  let lag = 0;
  let last = Number.NaN;
  let [soon, late, n, m] = [0, 0, 0, 0];
  for (; i < to; i++) {
    const t = temperature_C[i]!;
    lag *= kept;
    if (isTemperature(t)) {
      if (!Number.isNaN(last)) lag += usual.alpha * (t - last);
      last = t;
    }
    const since = seconds[i]! - seconds[from]!;
    if (since >= soon_s[0] && since <= soon_s[1]) {
      soon += lag;
      n++;
    }
    if (since >= late_s[0] && since <= late_s[1]) {
      late += lag;
      m++;
    }
  }
  const { dSpDt } = spFromCFirstDerivatives(
    conductivity_mS_cm[from]!,
    temperature_C[from]!,
    columns.pressure_dbar[from]!,
  );
  return dSpDt * (soon / n - late / m);
}
