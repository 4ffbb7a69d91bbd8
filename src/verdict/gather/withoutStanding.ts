// A sensor that gave one value for most of a cast has read nothing: its column is taken as missing.
import type { Cast, CellColumns, CellName } from "../../cast/cast.js";
import type { StandingSensor } from "../../health/castHealth.js";

export function withoutStanding(data: Cast, standing: readonly StandingSensor[]): Cast {
  const { primary, secondary } = data.columns;
  const missing = new Float64Array(data.columns.pressure_dbar.length).fill(Number.NaN);
  const read = (cell: CellName, readings: CellColumns): CellColumns => {
    const stood = (sensor: StandingSensor["sensor"]) =>
      standing.some((one) => one.cell === cell && one.sensor === sensor);
    return {
      temperature_C: stood("temperature") ? missing : readings.temperature_C,
      conductivity_mS_cm: stood("conductivity") ? missing : readings.conductivity_mS_cm,
    };
  };
  return {
    ...data,
    columns: {
      ...data.columns,
      primary: read("primary", primary),
      ...(secondary === undefined ? {} : { secondary: read("secondary", secondary) }),
    },
  };
}
