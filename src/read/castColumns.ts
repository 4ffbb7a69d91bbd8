// Convert the numbers of a cast's file to the columns of a cast. Units are checked and converted, impossible readings are
// removed, and the order of the scans is compared with their times.
import type { CastColumns, CellColumns } from "../cast/cast.js";
import { removedNotes, removeImpossible } from "../cast/impossibleReadings.js";
import { cFromSp, t90FromT68 } from "../seawater/index.js";
import { BadInput } from "./badInput.js";
import type { CastColumnName } from "./castColumnNames.js";
import { type ColumnPlaces, conductivityName } from "./castHeadings.js";
import { checkUnits } from "./castUnits.js";
import { present } from "./present.js";
import { backwardsFault } from "./scanTimes.js";
import { timeUnitFault } from "./timeUnit.js";
import type { CellReadings } from "./unitSample.js";

/** The columns as in the file. */
interface RawColumns {
  readonly column: (name: CastColumnName) => Float64Array | undefined;
  /** The heading in the file for one of our columns. */
  readonly heading: (name: CastColumnName) => string;
  readonly places: ColumnPlaces;
  readonly others: CastColumns["others"];
}

interface ReadingFacts {
  readonly file: string;
  readonly temperatureScale?: "ITS-90" | "IPTS-68";
}

/**
 * @param line of the headings
 * @returns columns in dbar, ITS-90 degree C and mS/cm, with notes on conversions, removed readings and odd values
 * @throws BadInput if the columns contradict their headings, the scans run backwards in time, or the times are not in
 *   seconds
 */
export function castColumns(
  raw: RawColumns,
  { file, temperatureScale }: ReadingFacts,
  line: number,
): { readonly columns: CastColumns; readonly notes: readonly string[] } {
  const { column, heading, places, others } = raw;
  const notes: string[] = [];
  const pressure_dbar = column("pressure_dbar")!;
  const cell = (suffix: "" | "2"): CellColumns | undefined => {
    const source = conductivityName(places, suffix);
    const temperature_C = column(`temperature${suffix}_C`);
    if (source === undefined || temperature_C === undefined) return undefined;
    if (temperatureScale === "IPTS-68") {
      temperature_C.forEach((t68, i) => {
        temperature_C[i] = t90FromT68(t68);
      });
      notes.push(`temperature${suffix}_C was converted from IPTS-68 to ITS-90`);
    }
    const values = column(source)!;
    if (source.startsWith("salinity")) {
      notes.push(`no conductivity${suffix} in the file: it was rebuilt from ${source}`);
      const none = fromSalinity(values, temperature_C, pressure_dbar);
      if (none > 0)
        notes.push(`${source}: ${none} values that no sea water can have: taken as missing`);
      return { temperature_C, conductivity_mS_cm: values };
    }
    const siemens = source.endsWith("_S_m");
    if (siemens) {
      values.forEach((value, i) => {
        values[i] = 10 * value;
      });
    }
    const readings: CellReadings = {
      pressure: pressure_dbar,
      temperature: temperature_C,
      conductivity: values,
      unit: siemens ? "S/m" : "mS/cm",
      headings: {
        pressure: heading("pressure_dbar"),
        temperature: heading(`temperature${suffix}_C`),
        conductivity: heading(source),
      },
    };
    notes.push(...checkUnits(readings, file, line));
    return { temperature_C, conductivity_mS_cm: values };
  };
  const primary = cell("")!;
  const secondary = cell("2");
  const { columns, removed } = removeImpossible(
    present<CastColumns>({ time_s: column("time_s"), pressure_dbar, primary, secondary, others }),
  );
  for (const name of ["time_s", "scan"] as const) {
    const values = name === "scan" ? column(name) : columns.time_s;
    const inUnit = () =>
      name === "scan" ? undefined : timeUnitFault(values!, columns.pressure_dbar);
    const fault = values === undefined ? undefined : (backwardsFault(values) ?? inUnit());
    if (fault !== undefined) {
      throw new BadInput([{ file, line, column: heading(name), ...fault }]);
    }
  }
  return { columns, notes: [...notes, ...removedNotes(removed)] };
}

/** Replace salinity by conductivity. @returns the number of values without a result */
function fromSalinity(values: Float64Array, temperature: Float64Array, pressure: Float64Array) {
  let none = 0;
  for (let i = 0; i < values.length; i++) {
    const conductivity = cFromSp(values[i]!, temperature[i]!, pressure[i]!);
    const lost = !Number.isFinite(conductivity);
    if (lost && Number.isFinite(values[i]! + temperature[i]! + pressure[i]!)) none++;
    values[i] = lost ? Number.NaN : conductivity;
  }
  return none;
}
