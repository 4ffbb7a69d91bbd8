// A sensor that repeats one value while the others see the water change. If the value is the column's largest or smallest
// and the readings approach it smoothly, it is the end of the range.

import type { CellColumns } from "../cast/cast.js";
import { type ColumnSummary, sameReading } from "./columnSummary.js";
import { conductivityPerDbar, conductivityPerKelvin } from "./conductivitySlopes.js";
import { digits, ofCell, placeOf, placeWords, unitOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import { plausibleFor } from "./plausibleFor.js";
import { rangeOver } from "./rangeOver.js";
import { repeatedRuns } from "./repeatedRuns.js";
import { resolutionOf } from "./resolution.js";
import type { CellStatistics } from "./statistics.js";
import type { WaterPart } from "./waterPart.js";

/** Shortest run reported (judgement). */
const least_s = 2;
const leastScans = 5;
/** Least change of the water, in multiples of the sensor's noise or resolution (judgement). */
const beyondNoise = 10;
/**
 * Without another cell temperature must show the change, which salinity can compensate within coarse steps. Least change,
 * mS/cm or K (judgement).
 */
const beyondNoiseAlone = 30;
const leastChange = 0.02;
/** Conductivity can change with salinity without temperature; so alone it must change by this, mS/cm (judgement). */
const leastAlone_mS_cm = 0.5;
/** A jump at the end of a run is this many times the steps around it; a smaller one is a smooth end (judgement). */
const smooth = 20;

export function stuck(
  part: WaterPart,
  own: CellStatistics,
  other: CellStatistics | undefined,
  sensor: "conductivity" | "temperature",
): readonly HealthFinding[] {
  const { survey, noise } = own[sensor];
  const column = columnOf(own.readings, sensor);
  const holds = plausibleFor(sensor);
  const least = Math.max(leastScans, Math.round(least_s / part.interval_s));
  const needed = Math.max(
    leastChange,
    (other === undefined ? beyondNoiseAlone : beyondNoise) *
      Math.max(noise || 0, resolutionOf(column, survey)),
  );
  const around = { part, own, other, sensor };
  const runs = repeatedRuns(column, survey, least).filter(
    ([from, to]) => holds(column[from]!) && shouldHaveMoved(around, from, to) > needed,
  );
  if (runs.length === 0) return [];
  const limits = extremesOf(column, survey);
  const clipped = runs.filter(
    ([from, to]) =>
      limits.some((limit) => Math.abs(column[from]! - limit) < sameReading) &&
      isSmooth(column, survey, from, to),
  );
  const halted = runs.filter((run) => !clipped.includes(run));
  return [...tell(around, column, "saturation", clipped), ...tell(around, column, "stuck", halted)];
}

interface Around {
  readonly part: WaterPart;
  readonly own: CellStatistics;
  /** The other cell, if there is one. */
  readonly other: CellStatistics | undefined;
  readonly sensor: "conductivity" | "temperature";
}

function columnOf(readings: CellColumns, sensor: Around["sensor"]): Float64Array {
  return sensor === "conductivity" ? readings.conductivity_mS_cm : readings.temperature_C;
}

type ConstantRun = readonly [from: number, to: number];

function tell(
  around: Around,
  column: Float64Array,
  kind: "stuck" | "saturation",
  runs: readonly ConstantRun[],
): readonly HealthFinding[] {
  const { part, sensor } = around;
  const { cell } = around.own;
  if (runs.length === 0) return [];
  const scans = runs.reduce((sum, [from, to]) => sum + to - from + 1, 0);
  const [from, to] = runs.reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a));
  const place = placeOf(part, runs[0]![0], runs.at(-1)![1]);
  const value = `${digits(column[from]!)} ${sensor === "conductivity" ? "mS/cm" : "degree C"}`;
  const missed = `${digits(shouldHaveMoved(around, from, to))} ${unitOf[sensor]}`;
  return [
    {
      kind,
      cell,
      sensor,
      ...place,
      size: { value: scans, unit: "scans" },
      what:
        kind === "stuck"
          ? `The ${ofCell(cell, sensor)} stays at ${value} for ${to - from + 1} scans, ${placeWords(place)}. The water changes by about ${missed}. In all ${scans} scans are stuck.`
          : `The ${ofCell(cell, sensor)} does not pass ${value}: ${scans} scans read that, ${placeWords(place)}. The water changes by about ${missed}.`,
      mend:
        kind === "stuck"
          ? "Remove these scans. Look at the cable and at how the data were recorded."
          : "Remove these scans. Set a wider range for the sensor or the conversion.",
      serious: true,
    },
  ];
}

/** Expected change of the sensor from those of the others, in its unit. */
function shouldHaveMoved({ part, own, other, sensor }: Around, from: number, to: number): number {
  const { readings } = own;
  const pressure = rangeOver(part.columns.pressure_dbar, "pressure", from, to);
  if (other !== undefined) {
    const moved = rangeOver(columnOf(other.readings, sensor), sensor, from, to);
    // If the other cell's sensor repeats its value as well, it gives no information.
    if (moved > 0) return moved;
  }
  if (sensor === "conductivity") {
    const temperature = rangeOver(readings.temperature_C, "temperature", from, to);
    return conductivityPerKelvin * temperature + conductivityPerDbar * pressure;
  }
  const conductivity = rangeOver(readings.conductivity_mS_cm, "conductivity", from, to);
  const alone = (conductivity - conductivityPerDbar * pressure) / conductivityPerKelvin;
  return alone > leastAlone_mS_cm ? alone : 0;
}

function extremesOf(column: Float64Array, { from, to }: ColumnSummary): readonly [number, number] {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = from; i < to; i++) {
    const value = column[i]!;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return [least, most];
}

/** Whether the readings approach and leave the value without a jump. */
function isSmooth(column: Float64Array, { from, to }: ColumnSummary, first: number, last: number) {
  const usual = (end: number, next: number) => {
    const beyond = 2 * next - end;
    const own = beyond >= from && beyond < to ? Math.abs(column[beyond]! - column[next]!) : 0;
    // No column is usefully written with finer steps (judgement).
    return Math.max(own, 1e-4);
  };
  const step = (end: number, next: number) =>
    next < from || next >= to || Math.abs(column[next]! - column[end]!) < smooth * usual(end, next);
  return step(first, first - 1) && step(last, last + 1);
}
