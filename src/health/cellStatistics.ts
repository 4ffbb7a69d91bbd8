// Results of one pass over the columns of a cell, for all findings of that cell.

import type { CellColumns, CellName } from "../cast/cast.js";
import { dropsOf } from "./bubbles.js";
import { summariseColumn } from "./columnSummary.js";
import { dropoutsOf } from "./dropouts.js";
import type { CellHealth } from "./finding.js";
import { noiseFloor } from "./noiseFloor.js";
import { settlingAtStops } from "./slowFlow.js";
import { spikesOf } from "./spikes.js";
import type { CellStatistics, SensorStatistics } from "./statistics.js";
import type { Stop } from "./stops.js";
import type { WaterPart } from "./waterPart.js";

export function cellStatistics(
  part: WaterPart,
  stops: readonly Stop[],
  cell: CellName,
  readings: CellColumns,
): CellStatistics {
  const sensorStatistics = (sensor: "conductivity" | "temperature"): SensorStatistics => {
    const column = sensor === "conductivity" ? readings.conductivity_mS_cm : readings.temperature_C;
    const survey = summariseColumn(column, part.from, part.to, part.interval_s);
    return {
      survey,
      noise: noiseFloor(survey),
      dropouts: dropoutsOf(part, column, survey, sensor),
      spikes: spikesOf(readings, sensor, survey),
    };
  };
  return {
    cell,
    readings,
    conductivity: sensorStatistics("conductivity"),
    temperature: sensorStatistics("temperature"),
    drops: dropsOf(part, readings),
    settling: settlingAtStops(part, stops, readings, undefined),
  };
}

export function cellHealth({ from, to }: WaterPart, look: CellStatistics): CellHealth {
  const { conductivity, temperature, settling } = look;
  const scans = to - from;
  return {
    conductivityNoise_mS_cm: conductivity.noise,
    temperatureNoise_K: temperature.noise,
    conductivitySpikes: (1000 * conductivity.spikes.at.length) / scans,
    temperatureSpikes: (1000 * temperature.spikes.at.length) / scans,
    conductivityDropouts: conductivity.dropouts.count / scans,
    temperatureDropouts: temperature.dropouts.count / scans,
    ...(settling === undefined ? {} : { settling }),
  };
}
