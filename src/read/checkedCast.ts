// Check a cast that did not come from a file as the readers check files.
import type { Cast, CastColumns, CellColumns, CellName } from "../cast/cast.js";
import { removedNotes, removeImpossible } from "../cast/impossibleReadings.js";
import { BadInput, type Fault, quoted } from "./badInput.js";
import { checkUnits } from "./castUnits.js";
import { backwardsFault } from "./scanTimes.js";
import { timeUnitFault } from "./timeUnit.js";

/** Number of scans for the check of units: fewer than for a file, because a verdict may be requested repeatedly. */
const scansJudged = 100;

/**
 * @param data as given by a caller, of any type
 * @param id   of the cast in the cruise's list
 * @param note receives notes
 * @returns the cast with Float64Array columns; the same object if nothing had to be changed
 * @throws BadInput with everything that cannot be used
 */
export function checkedCast(data: Cast, id: string, note: (text: string) => void): Cast {
  const file = `cast ${id}`;
  const faults: Fault[] = [];
  const fault = (column: string, found: string, expected: string, mend: string) =>
    faults.push({ file, line: 0, column, found, expected, mend });
  const given: Partial<CastColumns> | undefined = data?.columns;
  if (typeof given !== "object" || given === null) {
    fault("data.columns", quoted(given), "an object of columns", "Give the columns of the cast.");
    throw new BadInput(faults);
  }
  const column = (path: string, values: unknown): Float64Array => {
    const read = columnOf(values);
    if (typeof read !== "string") return read;
    fault(
      path,
      read,
      "a Float64Array, or a list of numbers",
      "Give one number for each scan, NaN if missing.",
    );
    return new Float64Array(0);
  };
  const cellColumns = (name: CellName): CellColumns | undefined => {
    const cell: Partial<CellColumns> | undefined = given[name];
    if (cell === undefined && name === "secondary") return undefined;
    const temperature_C = column(`${name}.temperature_C`, cell?.temperature_C);
    const conductivity_mS_cm = column(`${name}.conductivity_mS_cm`, cell?.conductivity_mS_cm);
    const same =
      cell?.temperature_C === temperature_C && cell?.conductivity_mS_cm === conductivity_mS_cm;
    return same ? (cell as CellColumns) : { temperature_C, conductivity_mS_cm };
  };
  const pressure_dbar = column("pressure_dbar", given.pressure_dbar);
  const time_s = given.time_s === undefined ? undefined : column("time_s", given.time_s);
  const primary = cellColumns("primary")!;
  const secondary = cellColumns("secondary");
  if (data.id !== id) {
    fault("data.id", quoted(data.id), `${quoted(id)}, as in the list`, "Give both the same id.");
  }
  if (data.conductivityFrom !== "measured" && data.conductivityFrom !== "salinity") {
    const mend = "Say whether conductivity was measured or made from salinity.";
    fault("data.conductivityFrom", quoted(data.conductivityFrom), '"measured" or "salinity"', mend);
  }
  const rate = data.sampleRate_Hz;
  if (rate !== undefined && !(rate > 0 && rate < 1e6)) {
    const mend = "Give the scans per second, or leave it out.";
    fault("data.sampleRate_Hz", quoted(rate), "a number above 0", mend);
  }
  if (faults.length === 0) {
    const lengths = {
      ...(time_s === undefined ? {} : { time_s }),
      "primary.temperature_C": primary.temperature_C,
      "primary.conductivity_mS_cm": primary.conductivity_mS_cm,
      ...(secondary === undefined
        ? {}
        : {
            "secondary.temperature_C": secondary.temperature_C,
            "secondary.conductivity_mS_cm": secondary.conductivity_mS_cm,
          }),
    };
    for (const [path, { length }] of Object.entries(lengths)) {
      if (length === pressure_dbar.length) continue;
      const expected = `${pressure_dbar.length}, as of pressure_dbar`;
      fault(path, `${length} values`, expected, "Give all columns one value for each scan.");
    }
    const odd =
      time_s === undefined
        ? undefined
        : (backwardsFault(time_s) ?? timeUnitFault(time_s, pressure_dbar));
    if (odd !== undefined) fault("time_s", odd.found, odd.expected, odd.mend);
  }
  if (faults.length > 0) throw new BadInput(faults);
  if (data.conductivityFrom === "measured") {
    for (const [name, cell] of [
      ["primary", primary],
      ["secondary", secondary],
    ] as const) {
      if (cell === undefined) continue;
      const readings = {
        pressure: pressure_dbar,
        temperature: cell.temperature_C,
        conductivity: cell.conductivity_mS_cm,
        unit: "mS/cm" as const,
        headings: {
          pressure: "pressure_dbar",
          temperature: `${name}.temperature_C`,
          conductivity: `${name}.conductivity_mS_cm`,
        },
      };
      for (const doubt of checkUnits(readings, file, 0, scansJudged)) note(`${file}: ${doubt}`);
    }
  }
  const same =
    given.pressure_dbar === pressure_dbar &&
    given.time_s === time_s &&
    given.primary === primary &&
    given.secondary === secondary &&
    given.others !== undefined;
  const whole: CastColumns = same
    ? (given as CastColumns)
    : {
        pressure_dbar,
        primary,
        ...(time_s === undefined ? {} : { time_s }),
        ...(secondary === undefined ? {} : { secondary }),
        others: given.others ?? {},
      };
  const { columns, removed } = removeImpossible(whole);
  for (const text of removedNotes(removed)) note(`${file}: ${text}`);
  return columns === data.columns ? data : { ...data, columns };
}

/** A column as a Float64Array, null and undefined as NaN; otherwise a text that says what it is. */
export function columnOf(values: unknown): Float64Array | string {
  if (values instanceof Float64Array) return values;
  const listed = Array.isArray(values) || (ArrayBuffer.isView(values) && "length" in values);
  if (!listed) return quoted(values);
  const list = values as ArrayLike<unknown>;
  const column = new Float64Array(list.length);
  for (let i = 0; i < list.length; i++) {
    const value = list[i];
    if (value === null || value === undefined) column[i] = Number.NaN;
    else if (typeof value === "number") column[i] = value;
    else return `${quoted(value)} among its values`;
  }
  return column;
}
