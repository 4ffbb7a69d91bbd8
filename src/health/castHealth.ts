// Health of the sensors on one cast, from its columns alone.

import type { Cast, CellName } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import { bubbles } from "./bubbles.js";
import { cellHealth, cellStatistics } from "./cellStatistics.js";
import { coarseSteps } from "./coarseSteps.js";
import { summariseColumn } from "./columnSummary.js";
import { conductivityUnits } from "./conductivityUnits.js";
import { dropouts } from "./dropouts.js";
import { exchangedInCell, exchangedThermometers } from "./exchangedColumns.js";
import type { CellHealth, HealthFinding } from "./finding.js";
import { latePump } from "./latePump.js";
import { noise, noisyStretch } from "./noise.js";
import { noiseFloor } from "./noiseFloor.js";
import { pressureDropouts, pressureStuck } from "./pressureHealth.js";
import { scanOrder } from "./scanOrder.js";
import { settlingAtStops, slowFlow } from "./slowFlow.js";
import { spikes } from "./spikes.js";
import type { CellStatistics } from "./statistics.js";
import { type Stop, stopsOf } from "./stops.js";
import { stuck } from "./stuck.js";
import { cellsOf, quickScans, type WaterPart, waterPart } from "./waterPart.js";

/** A sensor whose readings on this cast give no information about a film. */
export interface UnreadSensor {
  readonly cell: CellName;
  readonly sensor: "conductivity" | "temperature";
  /** It gave one value for most of the cast while the water changed, or the file has too few decimals. */
  readonly why: "stood" | "coarse";
}

export interface CastHealth {
  /** Empty without a visible fault. */
  readonly findings: readonly HealthFinding[];
  readonly cells: Readonly<Partial<Record<CellName, CellHealth>>>;
  readonly unread: readonly UnreadSensor[];
  /** Standard deviation of the gauge's noise from scan to scan, dbar; an upper limit at coarse sampling. */
  readonly pressureNoise_dbar?: number;
  /** Limits of the checks at this cast's sampling, in plain words. */
  readonly notes: readonly string[];
}

/** Fewest scans in the water to judge a sensor (judgement). */
const leastScans = 20;
/** A sensor that is stuck for this share of the scans in the water did not measure the cast (judgement). */
const standingShare = 0.5;

/**
 * Faults of the sensors on a cast, and the numbers of each cell.
 * @param legs of the same cast, from `splitLegs`
 * Never throws. The time is proportional to the number of scans: a few passes over each column.
 */
export function castHealth(cast: Cast, legs: Legs): CastHealth {
  const part = waterPart(cast, legs);
  if (part.to - part.from < leastScans) {
    return {
      findings: [],
      cells: {},
      unread: [],
      notes: ["too few scans in the water to judge the sensors"],
    };
  }
  // Columns with wrong units or in the wrong place are not checked further.
  const misread = cellsOf(part).flatMap(([cell]) => {
    const exchanged = exchangedInCell(part, cell);
    return exchanged.length > 0 ? exchanged : conductivityUnits(part, cell);
  });
  const stops = stopsOf(part);
  const statistics = cellsOf(part)
    .filter(([cell]) => misread.every((finding) => finding.cell !== cell))
    .map(([cell, readings]) => cellStatistics(part, stops, cell, readings));
  const pressure = summariseColumn(part.columns.pressure_dbar, part.from, part.to, part.interval_s);
  const pressureNoise = noiseFloor(pressure);
  const [first, second] = statistics;
  const findings = [
    ...misread,
    ...scanOrder(part, pressure),
    ...pressureDropouts(part, pressure),
    ...pressureStuck(part, pressure),
    ...(first !== undefined && second !== undefined
      ? exchangedThermometers(part, first.temperature.survey, second.temperature.survey)
      : []),
    ...statistics.flatMap((look) => ofCell(part, stops, look, statistics)),
  ];
  return {
    findings,
    unread: findings.flatMap((finding) => unreadIn(finding, part)),
    cells: Object.fromEntries(statistics.map((look) => [look.cell, cellHealth(part, look)])),
    ...(Number.isNaN(pressureNoise) ? {} : { pressureNoise_dbar: pressureNoise }),
    notes: notesOf(cast, part),
  };
}

function ofCell(
  part: WaterPart,
  stops: readonly Stop[],
  own: CellStatistics,
  looks: readonly CellStatistics[],
): readonly HealthFinding[] {
  const other = looks.find((look) => look !== own);
  const { cell, readings } = own;
  const beside =
    other === undefined ? undefined : settlingAtStops(part, stops, readings, other.readings);
  const air = bubbles(part, own);
  // Do not report bubbles again as spikes or noise.
  const drops = air.length > 0 ? own.drops : [];
  return [
    ...dropouts(part, own, "conductivity"),
    ...dropouts(part, own, "temperature"),
    ...stuck(part, own, other, "conductivity"),
    ...stuck(part, own, other, "temperature"),
    ...coarseSteps(part, own, "conductivity"),
    ...coarseSteps(part, own, "temperature"),
    ...air,
    ...spikes(part, own, other, "conductivity", drops),
    ...spikes(part, own, other, "temperature", []),
    ...noise(part, own, other),
    ...noisyStretch(part, own, other, drops),
    ...latePump(part, cell, readings),
    ...slowFlow(part, cell, own.settling, beside),
  ];
}

function unreadIn(
  { kind, cell, sensor, size }: HealthFinding,
  { from, to }: WaterPart,
): readonly UnreadSensor[] {
  if (cell === undefined || sensor === "pressure") return [];
  if (kind === "coarse-steps") return [{ cell, sensor, why: "coarse" }];
  if (kind !== "stuck" && kind !== "saturation") return [];
  return size.value >= standingShare * (to - from) ? [{ cell, sensor, why: "stood" }] : [];
}

function notesOf(cast: Cast, part: WaterPart): readonly string[] {
  const notes: string[] = [];
  if (!quickScans(part)) {
    notes.push(
      "scans are too far apart to distinguish noise, single spikes and bubbles from changes of the water",
    );
  }
  if (part.legs.clock.from === "pressure") {
    notes.push("no time: seconds were estimated from the usual rate of lowering");
  }
  if (cast.conductivityFrom === "salinity") {
    notes.push(
      "conductivity was rebuilt from salinity: corrections of that salinity hide the response of the cell",
    );
  }
  return notes;
}
