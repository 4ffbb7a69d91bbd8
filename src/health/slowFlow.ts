// Too little water through the cell: when the package stops, salinity settles by more, and for longer, than the
// usual thermal lag makes it. The lag stores heat in the wall [LueckPicklo1990]; with less flow more of it reaches
// the water, and the water of before stays longer [MorisonEtAl1994].
import type { CellColumns, CellName } from "../cast/cast.js";
import { spFromC } from "../seawater/index.js";
import { madScale } from "../statistics/madScale.js";
import { weightedMedian } from "../statistics/weightedMedian.js";
import { digits, ofCell, placeOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import { type Stop, stopsOf } from "./stops.js";
import type { WaterPart } from "./waterPart.js";

/** A stop that shows it lasts so long, s, and scans are no further apart than this. */
const least_s = 30;
const mostInterval_s = 2;
const leastStops = 4;
/** Salinity soon after the stop less that later, s after its beginning. */
const soon_s = [2, 7] as const;
const late_s = [18, 40] as const;
/** The gradient that the package came through, K/s, over so many seconds; less says nothing. */
const before_s = 10;
const leastGradient = 0.002;
/** The usual lag [MorisonEtAl1994], and dS/dt at constant conductivity, per K [UNESCO1983]. */
const usual = { alpha: 0.0245, tau_s: 9.5 };
const salinityPerKelvin = -1;
/** Settling of this many times the usual is a low flow; so many standard errors make it sure (judgement). */
const tooMuch = 3;
const sure = 5;

/** What the usual lag lets salinity settle by, for a gradient of 1 K/s. */
const usualSettling = (() => {
  const { alpha, tau_s } = usual;
  const at = ([from, to]: readonly [number, number]) => Math.exp(-(from + to) / 2 / tau_s);
  return salinityPerKelvin * alpha * tau_s * (at(soon_s) - at(late_s));
})();

export interface Settling {
  /** Of the usual, and its standard error. */
  readonly times: number;
  readonly standardError: number;
  readonly stops: number;
}

/**
 * How much salinity settles at stops, in multiples of what the usual thermal lag makes.
 * @param twin the other cell, in the same water: then only what the two do not share is counted
 * @returns undefined where fewer than four stops in a gradient show it
 */
export function settlingAtStops(
  part: WaterPart,
  readings: CellColumns,
  twin: CellColumns | undefined,
): Settling | undefined {
  if (part.interval_s > mostInterval_s) return undefined;
  const seen = stopsOf(part, least_s).flatMap((stop) => {
    const gradient = gradientBefore(part, readings.temperature_C, stop);
    const own = settledBy(part, readings, stop);
    const other = twin === undefined ? 0 : settledBy(part, twin, stop);
    const settled = own - other;
    const expected = usualSettling * gradient;
    return Math.abs(gradient) > leastGradient && Number.isFinite(settled)
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
  // The median is 1.25 times as uncertain as the mean of normal errors.
  return {
    times: slope + (twin === undefined ? 0 : 1),
    standardError: (1.25 * scatter) / Math.sqrt(squares),
    stops: seen.length,
  };
}

export function slowFlow(
  part: WaterPart,
  cell: CellName,
  readings: CellColumns,
  twin: CellColumns | undefined,
): readonly HealthFinding[] {
  for (const against of twin === undefined ? [undefined] : [twin, undefined]) {
    const settling = settlingAtStops(part, readings, against);
    if (settling === undefined) continue;
    const { times, standardError, stops } = settling;
    if (!(times > tooMuch && times - 1 > sure * standardError)) continue;
    const beside = against === undefined ? "" : ", the other cell's share taken out";
    return [
      {
        kind: "slow-flow",
        cell,
        sensor: "conductivity",
        ...placeOf(part, part.from, part.to - 1),
        size: { value: times, unit: "times the usual thermal lag" },
        what: `At ${stops} stops salinity from the ${ofCell(cell, "conductivity")} settles by ${digits(times)} +- ${digits(standardError)} times what the usual thermal lag makes it${beside}.`,
        mend: "Look at the pump, its power and the plumbing for a clog or air before cleaning the cell.",
        serious: false,
      },
    ];
  }
  return [];
}

function settledBy(part: WaterPart, readings: CellColumns, { from, to }: Stop): number {
  const soon = meanSalinity(part, readings, from, to, soon_s);
  return soon - meanSalinity(part, readings, from, to, late_s);
}

/** Of the scans so many seconds after the beginning; NaN where there is none. */
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
    c += conductivity_mS_cm[i]!;
    t += temperature_C[i]!;
    p += columns.pressure_dbar[i]!;
    n++;
  }
  return n === 0 ? Number.NaN : spFromC(c / n, t / n, p / n);
}

/** K/s over the seconds before the stop. */
function gradientBefore({ seconds }: WaterPart, temperature: Float64Array, { from }: Stop): number {
  let first = from;
  while (first > 0 && seconds[from]! - seconds[first]! < before_s) first--;
  const elapsed = seconds[from]! - seconds[first]!;
  return elapsed > 0 ? (temperature[from]! - temperature[first]!) / elapsed : Number.NaN;
}
