// The column of a sensor that does not measure the water is taken as missing.
import type { Cast, CellColumns, CellName } from "../../cast/cast.js";
import type { UnreadSensor } from "../../health/castHealth.js";

export function withoutUnread(data: Cast, unread: readonly UnreadSensor[]): Cast {
  const { primary, secondary } = data.columns;
  const missing = new Float64Array(data.columns.pressure_dbar.length).fill(Number.NaN);
  const read = (cell: CellName, readings: CellColumns): CellColumns => {
    const missed = (sensor: UnreadSensor["sensor"]) =>
      unread.some((one) => one.cell === cell && one.sensor === sensor);
    return {
      temperature_C: missed("temperature") ? missing : readings.temperature_C,
      conductivity_mS_cm: missed("conductivity") ? missing : readings.conductivity_mS_cm,
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
