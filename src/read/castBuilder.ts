// Rows of a cast's table gathered into columns, one row after the other, so that a file can be streamed.
import type { Cast, CellColumns } from "../cast/cast.js";
import type { InputFile, LeftOutRow } from "../cast/cruise.js";
import { cFromSp, t90FromT68 } from "../seawater/index.js";
import { BadInput, type Fault, quoted } from "./badInput.js";
import {
  type CastColumnName,
  type CastMapping,
  conductivityName,
  placesOf,
} from "./castHeadings.js";
import { checkUnits } from "./castUnits.js";
import { growingColumn } from "./growingColumn.js";
import { checkedHeadings } from "./headings.js";
import { mendNumber, numberCell } from "./numberCell.js";
import { present } from "./present.js";
import { raggedness, type TableRow } from "./table.js";

/** What is told of a cast beside its file. */
export interface CastFacts {
  readonly id: string;
  /** For messages. */
  readonly file: string;
  /** From our column names to the file's headings. */
  readonly mapping?: CastMapping;
  /** Of the temperatures in the file; ITS-90 where absent. */
  readonly temperatureScale?: "ITS-90" | "IPTS-68";
  readonly sampleRate_Hz?: number;
  /** ISO 8601 UTC. */
  readonly start?: string;
  /** Degrees north and east. */
  readonly latitude?: number;
  readonly longitude?: number;
}

export interface ReadCast {
  readonly cast: Cast;
  readonly input: InputFile;
}

/** Rows with something wrong beyond this many are counted, not listed. */
const mostListed = 200;

/** @throws BadInput where a heading that a cast must have is not there, or one stands twice */
export function castBuilder(head: TableRow, facts: CastFacts) {
  const { file } = facts;
  const headings = checkedHeadings(head, file);
  const { places, notes } = placesOf(head, facts.mapping ?? {}, file);
  const names = Object.keys(places) as CastColumnName[];
  const numbers = names.map((name) => ({ place: places[name]!, column: growingColumn() }));
  const taken = new Set(numbers.map(({ place }) => place));
  const others = headings.flatMap((heading, place) =>
    taken.has(place) || heading === "" ? [] : [{ heading, place, cells: [] as string[] }],
  );
  const leftOut: LeftOutRow[] = [];
  let rows = 0;
  let faulty = 0;
  let firstFault: Fault | undefined;
  const note = (fault: Fault, why: string) => {
    faulty++;
    firstFault ??= fault;
    if (leftOut.length < mostListed) leftOut.push({ line: fault.line, why });
  };

  return {
    /** A cell that is no number is a gap; so is a row whose cells cannot be told apart. Both keep their place. */
    push({ cells, line }: TableRow): void {
      rows++;
      const ragged = raggedness(cells, headings.length);
      let odd: number | undefined;
      for (const { place, column } of numbers) {
        const value = ragged === undefined ? numberCell(cells[place]) : Number.NaN;
        column.push(value ?? Number.NaN);
        if (value === undefined) odd ??= place;
      }
      for (const { place, cells: column } of others) column.push(cells[place] ?? "");
      if (ragged !== undefined) {
        const mend = "Put the cell that is missing in its place, blank if need be.";
        const fault = { file, line, found: ragged, expected: "one cell for each heading", mend };
        note(fault, `${ragged}: all taken as missing`);
      } else if (odd !== undefined) {
        const found = quoted(cells[odd]);
        const column = headings[odd]!;
        const mend = mendNumber(cells[odd] ?? "");
        const fault = { file, line, column, found, expected: "a number", mend };
        note(fault, `${column} is ${found}, not a number: taken as missing`);
      }
    },

    /** @throws BadInput where the rows cannot be of a cast */
    finish(): ReadCast {
      if (rows === 0) throw new BadInput([noRows(file, head.line)]);
      // One odd cell is a gap; a column of them is another format.
      if (firstFault !== undefined && faulty > rows / 2) throw new BadInput([firstFault]);
      const said = [...notes];
      if (faulty > mostListed) {
        said.push(`${faulty} rows with something wrong, the first ${mostListed} listed`);
      }
      const column = (name: CastColumnName) => numbers[names.indexOf(name)]?.column.values();
      const pressure_dbar = column("pressure_dbar")!;
      const cell = (suffix: "" | "2"): CellColumns | undefined => {
        const source = conductivityName(places, suffix);
        const temperature_C = column(`temperature${suffix}_C`);
        if (source === undefined || temperature_C === undefined) return undefined;
        if (facts.temperatureScale === "IPTS-68") {
          temperature_C.forEach((t68, i) => {
            temperature_C[i] = t90FromT68(t68);
          });
          said.push(`temperature${suffix}_C was converted from IPTS-68 to ITS-90`);
        }
        const values = column(source)!;
        const columns = { temperature_C, conductivity_mS_cm: values };
        if (source.startsWith("salinity")) {
          said.push(`no conductivity${suffix} in the file: it was rebuilt from ${source}`);
          values.forEach((sp, i) => {
            values[i] = cFromSp(sp, temperature_C[i]!, pressure_dbar[i]!);
          });
          return columns;
        }
        const siemens = source.endsWith("_S_m");
        if (siemens) {
          values.forEach((value, i) => {
            values[i] = 10 * value;
          });
        }
        const heading = (name: CastColumnName) => headings[places[name]!]!;
        const readings = {
          pressure: pressure_dbar,
          temperature: temperature_C,
          conductivity: values,
          unit: siemens ? ("S/m" as const) : ("mS/cm" as const),
          headings: {
            pressure: heading("pressure_dbar"),
            temperature: heading(`temperature${suffix}_C`),
            conductivity: heading(source),
          },
        };
        said.push(...checkUnits(readings, file, head.line));
        return columns;
      };
      const primary = cell("")!;
      const secondary = cell("2");
      const { id, sampleRate_Hz, start, latitude, longitude } = facts;
      const salinityOnly = conductivityName(places, "") === "salinity";
      return {
        cast: present<Cast>({
          id,
          start,
          latitude,
          longitude,
          sampleRate_Hz,
          conductivityFrom: salinityOnly ? "salinity" : "measured",
          columns: present({
            time_s: column("time_s"),
            pressure_dbar,
            primary,
            secondary,
            others: Object.fromEntries(others.map(({ heading, cells }) => [heading, cells])),
          }),
        }),
        input: { name: file, role: "cast", rows, leftOut, notes: said },
      };
    },
  };
}

function noRows(file: string, line: number): Fault {
  return {
    file,
    line,
    found: "headings and no row",
    expected: "one row a scan",
    mend: "Check that the file was written to its end.",
  };
}
