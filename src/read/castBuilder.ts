// Rows of a cast's table gathered into columns, one row after the other, so that a file can be streamed.
import type { Cast, CastColumns, CellColumns } from "../cast/cast.js";
import type { InputFile, LeftOutRow } from "../cast/cruise.js";
import { cFromSp, t90FromT68 } from "../seawater/index.js";
import { BadInput, type Fault } from "./badInput.js";
import { type CastColumnName, type CastMapping, placesOf } from "./castHeadings.js";
import { unitFaults } from "./castUnits.js";
import { mendNumber, numberCell } from "./numberCell.js";
import type { TableRow } from "./table.js";

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
  readonly start?: string;
  readonly latitude?: number;
  readonly longitude?: number;
}

export interface ReadCast {
  readonly cast: Cast;
  readonly input: InputFile;
}

/** Rows with something wrong beyond this many are counted, not listed. */
const mostListed = 200;

/** @throws BadInput where a column that a cast must have is not there */
export function castBuilder(head: TableRow, facts: CastFacts) {
  const { file, mapping = {} } = facts;
  const places = placesOf(head.cells, mapping);
  requireColumns(head, facts, places);
  const names = Object.keys(places) as CastColumnName[];
  const columns = new Map(names.map((name) => [name, growing()]));
  const otherPlaces = head.cells.flatMap((_, i) => (Object.values(places).includes(i) ? [] : [i]));
  const others = otherPlaces.map((): string[] => []);
  const leftOut: LeftOutRow[] = [];
  let [rows, faulty, firstFault] = [0, 0, undefined as Fault | undefined];
  return {
    push({ cells, line }: TableRow): void {
      rows++;
      let why =
        cells.length === head.cells.length
          ? ""
          : `${cells.length} cells under ${head.cells.length} headings`;
      for (const name of names) {
        const text = cells[places[name]!];
        const value = numberCell(text);
        columns.get(name)!.push(value ?? Number.NaN);
        if (value !== undefined) continue;
        why = `${head.cells[places[name]!]} is ${JSON.stringify(text)}, not a number: taken as missing`;
        firstFault ??= {
          file,
          line,
          column: head.cells[places[name]!]!,
          found: JSON.stringify(text),
          expected: "a number",
          mend: mendNumber(text ?? ""),
        };
      }
      otherPlaces.forEach((place, i) => {
        others[i]!.push(cells[place] ?? "");
      });
      if (why === "") return;
      faulty++;
      if (leftOut.length < mostListed) leftOut.push({ line, why });
    },
    /** @throws BadInput where the rows cannot be of a cast */
    finish(): ReadCast {
      if (rows === 0) throw new BadInput([noRows(file, head.line)]);
      // One odd cell is a gap; a column of them is another format.
      if (faulty > rows / 2 && firstFault !== undefined) throw new BadInput([firstFault]);
      const column = (name: CastColumnName) => columns.get(name)?.values();
      const notes: string[] = [];
      if (faulty > mostListed)
        notes.push(`${faulty} rows with something wrong, the first ${mostListed} listed`);
      const pressure_dbar = column("pressure_dbar")!;
      const primary = cellColumns(facts, pressure_dbar, column, "", notes)!;
      const secondary = cellColumns(facts, pressure_dbar, column, "2", notes);
      const time_s = column("time_s");
      const castColumns: CastColumns = {
        ...(time_s === undefined ? {} : { time_s }),
        pressure_dbar,
        primary,
        ...(secondary === undefined ? {} : { secondary }),
        others: Object.fromEntries(otherPlaces.map((place, i) => [head.cells[place]!, others[i]!])),
      };
      const heading = (name: CastColumnName) => head.cells[places[name] ?? -1] ?? name;
      const faults = unitFaults(castColumns, { file, line: head.line, heading, places });
      if (faults.length > 0) throw new BadInput(faults);
      const { id, sampleRate_Hz, start, latitude, longitude } = facts;
      const measured =
        places.conductivity_mS_cm !== undefined || places.conductivity_S_m !== undefined;
      return {
        cast: {
          id,
          ...(start === undefined ? {} : { start }),
          ...(latitude === undefined ? {} : { latitude }),
          ...(longitude === undefined ? {} : { longitude }),
          ...(sampleRate_Hz === undefined ? {} : { sampleRate_Hz }),
          conductivityFrom: measured ? "measured" : "salinity",
          columns: castColumns,
        },
        input: { name: file, role: "cast", rows, leftOut, notes },
      };
    },
  };
}

function requireColumns(
  { cells, line }: TableRow,
  { file, mapping = {} }: CastFacts,
  places: ReturnType<typeof placesOf>,
): void {
  const mapped = Object.entries(mapping).filter(([, heading]) => !cells.includes(heading));
  const wanted = [
    ...mapped.map(([, heading]) => heading),
    ...(["pressure_dbar", "temperature_C"] as const).filter((name) => places[name] === undefined),
    ...((places.conductivity_mS_cm ?? places.conductivity_S_m ?? places.salinity) === undefined
      ? ["conductivity_mS_cm"]
      : []),
  ];
  if (wanted.length === 0) return;
  const found = cells.slice(0, 12).join(", ");
  throw new BadInput(
    [...new Set(wanted)].map((name) => ({
      file,
      line,
      column: name,
      found: `no such heading among ${found}${cells.length > 12 ? ", ..." : ""}`,
      expected:
        name === "conductivity_mS_cm"
          ? "a column conductivity_mS_cm, conductivity_S_m or salinity"
          : `a column ${name}`,
      mend: "Rename the column, or name your heading for it under `mapping` in cruise.json.",
    })),
  );
}

/** Temperature and conductivity of one cell; undefined where the file has no such cell. */
function cellColumns(
  { temperatureScale }: CastFacts,
  pressure: Float64Array,
  column: (name: CastColumnName) => Float64Array | undefined,
  suffix: "" | "2",
  notes: string[],
): CellColumns | undefined {
  const temperature_C = column(`temperature${suffix}_C`);
  if (temperature_C === undefined) return undefined;
  if (temperatureScale === "IPTS-68") {
    for (let i = 0; i < temperature_C.length; i++) temperature_C[i] = t90FromT68(temperature_C[i]!);
    notes.push("temperature was converted from IPTS-68 to ITS-90");
  }
  const given = column(`conductivity${suffix}_mS_cm`);
  if (given !== undefined) return { temperature_C, conductivity_mS_cm: given };
  const siemens = column(`conductivity${suffix}_S_m`);
  if (siemens !== undefined) {
    return { temperature_C, conductivity_mS_cm: siemens.map((value) => 10 * value) };
  }
  const salinity = column(`salinity${suffix}`);
  if (salinity === undefined) return undefined;
  notes.push("no conductivity in the file: it was rebuilt from salinity");
  return {
    temperature_C,
    conductivity_mS_cm: salinity.map((sp, i) => cFromSp(sp, temperature_C[i]!, pressure[i]!)),
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

/** A typed array that grows as it is filled. */
function growing() {
  let store = new Float64Array(1024);
  let length = 0;
  return {
    push(value: number): void {
      if (length === store.length) {
        const larger = new Float64Array(2 * length);
        larger.set(store);
        store = larger;
      }
      store[length++] = value;
    },
    values: () => store.slice(0, length),
  };
}
