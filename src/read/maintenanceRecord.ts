// The maintenance record, as a table or as a JSON array with the same names.
import type { InputFile } from "../cast/inputFile.js";
import {
  batteryKinds,
  type MaintenanceAction,
  type MaintenanceEvent,
  maintenanceActions,
  mostInAir_mS_cm,
} from "../cast/maintenance.js";
import { BadInput, type Fault, quoted } from "./badInput.js";
import { requireHeadings } from "./headings.js";
import { keyLines, readJson } from "./json.js";
import { actionMend, readingInAirMend } from "./mends.js";
import { numberCell } from "./numberCell.js";
import { present } from "./present.js";
import { ifKnown, rowReader } from "./rowReader.js";
import { readTable, type Table } from "./table.js";
import { zoneNotes } from "./timeCell.js";

interface ReadMaintenance {
  readonly events: readonly MaintenanceEvent[];
  readonly input: InputFile;
}

const recordHeadings = [
  ...["time", "after_cast", "action", "cell", "solution", "concentration", "minutes"],
  ...["soaked", "drained", "rinsed", "oxygen_sensor_out"],
  ...["battery_volts", "battery_cells", "battery_kind", "reading_mS_cm", "serial", "by", "note"],
] as const;

/**
 * Read a maintenance record from text.
 * @param text a table with headings `action` and `time` or `after_cast`, optional `solution, concentration, minutes, cell,
 *   soaked, drained, rinsed, oxygen_sensor_out, battery_volts, battery_cells, battery_kind, reading_mS_cm, serial, by,
 *   note`, or a JSON array of objects with the same names
 * @throws BadInput with every row with an unknown action, an invalid time, or neither time nor cast, because a skipped
 *   entry could hide a cleaning; and with every invalid reading in air, or one without a single cell
 */
export function readMaintenance(
  text: string,
  { file }: { readonly file: string },
): ReadMaintenance {
  const table = /^\ufeff?\s*[[{]/.test(text) ? tableOfJson(text, file) : readTable(text, file);
  requireHeadings(table.headings, ["action"], file, table.headingLine);
  const faults: Fault[] = [];
  const events = table.rows.flatMap((row) => {
    const cells = rowReader(table, row, file, faults);
    const { text, word, number, time, yesOrNo, fault } = cells;
    const action = maintenanceActions.find((known) => known === word("action"));
    if (action === undefined) {
      fault("action", ...actionMend);
      return [];
    }
    const cell = word("cell");
    if (cell !== undefined && cell !== "primary" && cell !== "secondary") {
      fault("cell", "primary or secondary", "Leave the cell blank if it was done to both.");
    }
    const [at, afterCast] = [time("time"), text("after_cast")];
    if (at === undefined && afterCast === undefined && text("time") === undefined) {
      fault("time", "a time, or the cast it followed", "Write `time` or `after_cast`.");
    }
    const batteryKind = batteryKinds.find((known) => known === word("battery_kind"));
    if (batteryKind === undefined && text("battery_kind") !== undefined) {
      fault(
        "battery_kind",
        `one of ${batteryKinds.join(", ")}`,
        "Write the kind by one of these names, or leave it blank.",
      );
    }
    const positive = (heading: string) => {
      const value = number(heading);
      if (value < 0) fault(heading, "a number from 0 up", "Correct the value, or leave it blank.");
      return ifKnown(value);
    };
    return [
      present<MaintenanceEvent>({
        action,
        time: at,
        afterCast,
        cell: cell === "primary" || cell === "secondary" ? cell : undefined,
        solution: text("solution"),
        concentration: text("concentration"),
        minutes: positive("minutes"),
        soaked: yesOrNo("soaked"),
        drained: yesOrNo("drained"),
        rinsed: yesOrNo("rinsed"),
        oxygenSensorOut: yesOrNo("oxygen_sensor_out"),
        batteryVolts: positive("battery_volts"),
        batteryCells: positive("battery_cells"),
        batteryKind,
        reading_mS_cm: airReading(cells, action),
        serial: text("serial"),
        by: text("by"),
        note: text("note"),
        line: row.line,
      }),
    ];
  });
  if (faults.length > 0) throw new BadInput(faults);
  const notes = [...table.notes, ...zoneNotes(table, ["time"])];
  return {
    events,
    input: { name: file, role: "maintenance", rows: table.rows.length, leftOut: [], notes },
  };
}

/** The reading of a cell in air, mS/cm; only an entry for a reading in air has it, and it must. */
function airReading(
  { text, number, fault }: ReturnType<typeof rowReader>,
  action: MaintenanceAction,
): number | undefined {
  const heading = "reading_mS_cm";
  if (action !== "air-reading") {
    if (text(heading) !== undefined) {
      fault(
        heading,
        "a blank cell",
        "Write a reading in air in a line of its own, as air-reading.",
      );
    }
    return undefined;
  }
  if (text("cell") === undefined) {
    fault("cell", "primary or secondary", "Write one line for each cell: each has its reading.");
  }
  const reading = number(heading);
  if (Number.isNaN(reading)) {
    // Cells that are not numbers have been reported already.
    if (numberCell(text(heading)) !== undefined) {
      fault(heading, "what the cell read in air, mS/cm", "Write the reading, 0 where it was zero.");
    }
    return undefined;
  }
  if (Math.abs(reading) > mostInAir_mS_cm) {
    fault(heading, ...readingInAirMend);
  }
  return reading;
}

/** A JSON array of flat objects as a table; each line number is that of the start of an object. */
function tableOfJson(text: string, file: string): Table {
  const parsed = readJson(text, file);
  const records = Array.isArray(parsed) ? parsed : undefined;
  if (
    records === undefined ||
    records.some((r) => typeof r !== "object" || r === null || Array.isArray(r))
  ) {
    throw new BadInput([
      {
        file,
        line: 1,
        found:
          records === undefined
            ? "JSON that is not an array"
            : "an array with something else than objects",
        expected: "an array of objects, one for each entry",
        mend: 'Write [{"time": "...", "action": "rinse"}, ...].',
      },
    ]);
  }
  const objects = records as readonly Record<string, unknown>[];
  // Unknown keys are ignored, like unknown columns of a table.
  const headings = recordHeadings.filter((name) =>
    objects.some((object) => Object.hasOwn(object, name)),
  );
  const lineOf = keyLines(text);
  return {
    headings,
    headingLine: 1,
    notes: [],
    rows: objects.map((object, i) => ({
      line: lineOf([i]),
      cells: headings.map((heading) =>
        textOf(Object.hasOwn(object, heading) ? object[heading] : undefined),
      ),
    })),
  };
}

function textOf(value: unknown): string {
  if (value === undefined || value === null) return "";
  return typeof value === "object" ? quoted(value) : String(value);
}
