// Scans in the water without a possible reading: gaps, zeros, fill values, wild jumps.

import { type ColumnSummary, scansOfBlock } from "./columnSummary.js";
import { ofCell, placeOf, placeWords } from "./describe.js";
import type { HealthFinding, Sensor } from "./finding.js";
import { plausibleFor } from "./plausibleFor.js";
import type { CellStatistics, Dropouts } from "./statistics.js";
import type { WaterPart } from "./waterPart.js";

/** An impossible reading is at least about this far from a possible one, mS/cm, K or dbar (judgement). */
const leap = 0.1;

/**
 * Only blocks with a gap, a leap or an impossible end are examined scan by scan. Scans in air are not counted. Nor are scans
 * without a pressure, for a cell: they are reported for the gauge.
 */
export function dropoutsOf(
  { columns, inAir }: WaterPart,
  column: Float64Array,
  survey: ColumnSummary,
  sensor: Sensor,
): Dropouts {
  const holds = plausibleFor(sensor);
  const placed = plausibleFor("pressure");
  const passed = (i: number) =>
    sensor !== "pressure" && (inAir(i) || !placed(columns.pressure_dbar[i]!));
  const runs: [number, number][] = [];
  let count = 0;
  for (let b = 0; b < survey.mean.length; b++) {
    const [start, end] = scansOfBlock(survey, b);
    const even = survey.most[b]! < leap && Number.isFinite(survey.mean[b]!);
    if (even && holds(column[start]!) && holds(column[end - 1]!)) continue;
    for (let i = start; i < end; i++) {
      if (holds(column[i]!) || passed(i)) continue;
      count++;
      const last = runs.at(-1);
      if (last !== undefined && last[1] === i - 1) last[1] = i;
      else runs.push([i, i]);
    }
  }
  return { count, runs };
}

/** Fewest dropouts reported: in a thousand scans, or in one run (judgement). */
const tellShare = 0.002;
const tellRun_s = 5;
const tellRunScans = 5;
/** Share above which the sensor did not work (judgement). */
const seriousShare = 0.05;

export function dropouts(
  part: WaterPart,
  look: CellStatistics,
  sensor: "conductivity" | "temperature",
): readonly HealthFinding[] {
  const { cell } = look;
  const found = look[sensor].dropouts;
  const scans = part.to - part.from;
  const longest = found.runs.reduce((most, [from, to]) => Math.max(most, to - from + 1), 0);
  const long = longest >= tellRunScans && longest * part.interval_s >= tellRun_s;
  const share = found.count / scans;
  if (!long && !(share > tellShare && found.count > 2)) return [];
  const place = placeOf(part, found.runs[0]![0], found.runs.at(-1)![1]);
  const whole = found.count === scans;
  return [
    {
      kind: "dropouts",
      cell,
      sensor,
      ...place,
      size: { value: 1000 * share, unit: "per 1000 scans" },
      what: whole
        ? `The ${ofCell(cell, sensor)} has no possible reading.`
        : `${found.count} of ${scans} scans have no possible ${ofCell(cell, sensor)}. The longest run is ${longest} scans, ${placeWords(place)}.`,
      mend: "Look at the connector, the cable and its seals. Change the cable before the sensor.",
      serious: share > seriousShare,
    },
  ];
}
