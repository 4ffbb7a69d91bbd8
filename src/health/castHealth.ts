// The health of the sensors on one cast, from its columns alone: which answers can be trusted, and where.
import type { Cast, CellColumns, CellName } from "../cast/cast.js";
import type { Legs } from "../cast/splitLegs.js";
import { conductivityUnits } from "./conductivityUnits.js";
import { dropouts, dropoutsOf } from "./dropouts.js";
import type { CellHealth, HealthFinding } from "./finding.js";
import { type CellNoise, noise, noisyStretch } from "./noise.js";
import { noiseFloor } from "./noiseFloor.js";
import { spikes, spikesOf } from "./spikes.js";
import { stuck } from "./stuck.js";
import { surveyColumn } from "./surveyColumn.js";
import { cellsOf, quickScans, type WaterPart, waterPart } from "./waterPart.js";

export interface CastHealth {
  /** None where nothing is amiss that can be seen. */
  readonly findings: readonly HealthFinding[];
  readonly cells: Readonly<Partial<Record<CellName, CellHealth>>>;
  /** What cannot be seen at this cast's sampling, in plain words. */
  readonly notes: readonly string[];
}

/** Fewer scans in the water say nothing of a sensor. */
const leastScans = 20;

/**
 * What is the matter with the sensors of a cast, if anything is, and the numbers of each cell.
 * @param legs of the same cast, from `splitLegs`
 * Never throws. Time grows with the scans: a few passes over each column.
 */
export function castHealth(cast: Cast, legs: Legs): CastHealth {
  const part = waterPart(cast, legs);
  if (part.to - part.from < leastScans) {
    return { findings: [], cells: {}, notes: ["too few scans in the water to judge the sensors"] };
  }
  const cells = cellsOf(part).map(([cell, readings]) => lookAt(part, cell, readings));
  const findings = cells.flatMap((own) => {
    // Columns that are not what they should be are not judged further.
    if (own.misread.length > 0) return own.misread;
    const other = cells.find((one) => one !== own && one.misread.length === 0);
    const twin = other === undefined ? undefined : part.columns[other.cell];
    return [
      ...dropouts(part, own.cell, "conductivity", own.conductivityDropouts),
      ...dropouts(part, own.cell, "temperature", own.temperatureDropouts),
      ...stuck({
        part,
        cell: own.cell,
        sensor: "conductivity",
        readings: own.readings,
        survey: own.conductivity,
        twin: twin?.conductivity_mS_cm,
        noise: own.conductivityNoise,
      }),
      ...stuck({
        part,
        cell: own.cell,
        sensor: "temperature",
        readings: own.readings,
        survey: own.temperature,
        twin: twin?.temperature_C,
        noise: own.temperatureNoise,
      }),
      ...spikes(part, own.cell, "conductivity", own.conductivitySpikes),
      ...spikes(part, own.cell, "temperature", own.temperatureSpikes),
      ...noise(part, own, other),
      ...noisyStretch(part, own, other),
    ];
  });
  return {
    findings,
    cells: Object.fromEntries(cells.map((own) => [own.cell, numbersOf(part, own)])),
    notes: notesOf(part),
  };
}

type Look = ReturnType<typeof lookAt>;

function lookAt(part: WaterPart, cell: CellName, readings: CellColumns) {
  const { from, to, interval_s, inAir } = part;
  const { conductivity_mS_cm, temperature_C } = readings;
  const conductivity = surveyColumn(conductivity_mS_cm, from, to, interval_s);
  const temperature = surveyColumn(temperature_C, from, to, interval_s);
  return {
    cell,
    readings,
    conductivity,
    temperature,
    conductivityNoise: noiseFloor(conductivity),
    temperatureNoise: noiseFloor(temperature),
    conductivityDropouts: dropoutsOf(conductivity_mS_cm, conductivity, "conductivity", inAir),
    temperatureDropouts: dropoutsOf(temperature_C, temperature, "temperature", inAir),
    conductivitySpikes: spikesOf(readings, "conductivity", conductivity),
    temperatureSpikes: spikesOf(readings, "temperature", temperature),
    misread: conductivityUnits(part, cell),
  } satisfies CellNoise & Record<string, unknown>;
}

function numbersOf({ from, to }: WaterPart, own: Look): CellHealth {
  const scans = to - from;
  return {
    conductivityNoise_mS_cm: own.conductivityNoise,
    temperatureNoise_K: own.temperatureNoise,
    conductivitySpikes: (1000 * own.conductivitySpikes.at.length) / scans,
    temperatureSpikes: (1000 * own.temperatureSpikes.at.length) / scans,
    conductivityDropouts: own.conductivityDropouts.count / scans,
    temperatureDropouts: own.temperatureDropouts.count / scans,
  };
}

function notesOf(part: WaterPart): readonly string[] {
  return quickScans(part)
    ? []
    : [
        "scans are too far apart to tell a sensor's noise and single spikes from water that changes",
      ];
}
