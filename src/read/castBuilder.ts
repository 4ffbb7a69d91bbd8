// Collect the rows of a cast's table into columns, one row after the other, so that a file can be streamed.
import type { Cast } from "../cast/cast.js";
import type { InputFile, LeftOutRow } from "../cast/inputFile.js";
import { BadInput, type Fault, quoted } from "./badInput.js";
import type { CastColumnName, CastMapping } from "./castColumnNames.js";
import { castColumns } from "./castColumns.js";
import { type Beginning, conductivityName, placesOf } from "./castHeadings.js";
import { growingColumn } from "./growingColumn.js";
import { checkedHeadings } from "./headings.js";
import { mendNumber, numberCell } from "./numberCell.js";
import { present } from "./present.js";
import { raggedMend, raggedness, type TableRow } from "./tableRow.js";
import { refuseSeveralPlaces, rowPlacesOf, stationOf, unitsOfColumns } from "./unitsRow.js";

/** Facts about a cast that are given beside its file. */
export interface CastFacts {
  readonly id: string;
  /** File name for messages. */
  readonly file: string;
  /** From our column names to the file's headings. */
  readonly mapping?: CastMapping;
  /** Scale of the temperatures in the file; ITS-90 if absent. */
  readonly temperatureScale?: "ITS-90" | "IPTS-68";
  readonly sampleRate_Hz?: number;
  /** ISO 8601 UTC. */
  readonly start?: string;
  /** Degrees north and east. */
  readonly latitude?: number;
  readonly longitude?: number;
  /** Whether unknown columns are kept unchanged under `others`; true if absent. */
  readonly keepOthers?: boolean;
}

export interface ReadCast {
  readonly cast: Cast;
  readonly input: InputFile;
}

/** Faulty rows beyond this number are counted, not listed. */
const mostListed = 200;

/**
 * @param beginning the first rows, to guess a missing heading
 * @throws BadInput if a required heading is missing, or one is repeated
 */
export function castBuilder(head: TableRow, facts: CastFacts, beginning?: Beginning) {
  const { file } = facts;
  const headings = checkedHeadings(head, file);
  const { places, notes: told } = placesOf(head, facts.mapping ?? {}, file, beginning);
  const units = beginning?.units;
  const { conversions, notes: converted } = unitsOfColumns(
    places,
    headings,
    units ?? [],
    file,
    head.line,
  );
  const notes = [...told, ...converted];
  const names = Object.keys(places) as CastColumnName[];
  const positions = units === undefined ? undefined : rowPlacesOf(headings, units);
  const numbers = [...names.map((name) => places[name]!), ...Object.values(positions ?? {})].map(
    (place) => ({ place, column: growingColumn() }),
  );
  const row = beginning?.rows.find((cells) => units?.some((unit, k) => cells[k] !== unit));
  const station = units === undefined ? {} : stationOf(headings, units, row ?? []);
  const taken = new Set(names.flatMap((name) => (name === "scan" ? [] : [places[name]!])));
  const others = headings.flatMap((heading, place) =>
    facts.keepOthers === false || taken.has(place) || heading === ""
      ? []
      : [{ heading, place, cells: [] as string[] }],
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
    /** Indices of the columns read as numbers, and of those kept as text. */
    numberPlaces: numbers.map(({ place }) => place),
    textPlaces: others.map(({ place }) => place),
    headings: headings.length,

    /**
     * Rows whose cells are known to be numbers.
     * @param values of one of `numberPlaces`, by row, NaN for none
     * @param text   the cell of a row in one of `textPlaces`
     */
    pushNumbers(
      count: number,
      values: (k: number) => Float64Array,
      text: (row: number, k: number) => string,
    ): void {
      rows += count;
      for (const [k, { column }] of numbers.entries()) column.pushAll(values(k));
      for (const [k, { cells }] of others.entries()) {
        for (let row = 0; row < count; row++) cells.push(text(row, k));
      }
    },

    /** A cell that is not a number is a gap; so is a row whose cells cannot be separated. Both keep their place. */
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
        const fault = { file, line, found: ragged, ...raggedMend };
        note(fault, `${ragged}: all taken as missing`);
      } else if (odd !== undefined) {
        const found = quoted(cells[odd]);
        const column = headings[odd]!;
        const mend = mendNumber(cells[odd] ?? "");
        const fault = { file, line, column, found, expected: "a number", mend };
        note(fault, `${column} is ${found}, not a number: taken as missing`);
      }
    },

    /** The last cell of the last row was cut short, so it is missing. */
    loseLast(cut: string): void {
      const last = numbers.find(({ place }) => place === headings.length - 1);
      if (last === undefined) return;
      last.column.replaceLast(Number.NaN);
      notes.push(`the text ends within its last number, ${quoted(cut)}: taken as missing`);
    },

    /** @throws BadInput if the rows cannot belong to a cast */
    finish(): ReadCast {
      if (rows === 0) throw new BadInput([noRows(file, head.line)]);
      // A few odd cells are gaps; a column of them is another format.
      if (firstFault !== undefined && faulty > rows / 2) throw new BadInput([firstFault]);
      if (positions !== undefined) {
        const [latitude, longitude] = numbers.slice(-2).map(({ column }) => column.values());
        refuseSeveralPlaces(latitude!, longitude!, file, head.line);
      }
      const said = [...notes];
      if (faulty > mostListed) {
        said.push(`${faulty} rows with something wrong, the first ${mostListed} listed`);
      }
      const found = castColumns(
        {
          column: (name) => {
            const values = numbers[names.indexOf(name)]?.column.values();
            const { factor, offset } = conversions[name] ?? { factor: 1, offset: 0 };
            return factor === 1 && offset === 0 ? values : values?.map((x) => factor * x + offset);
          },
          heading: (name) => headings[places[name]!]!,
          places,
          others: Object.fromEntries(others.map(({ heading, cells }) => [heading, cells])),
        },
        facts,
        head.line,
      );
      const { id, sampleRate_Hz, start, latitude, longitude } = { ...station, ...facts };
      const salinityOnly = conductivityName(places, "") === "salinity";
      return {
        cast: present<Cast>({
          id,
          start,
          latitude,
          longitude,
          sampleRate_Hz,
          conductivityFrom: salinityOnly ? "salinity" : "measured",
          columns: found.columns,
        }),
        input: { name: file, role: "cast", rows, leftOut, notes: [...said, ...found.notes] },
      };
    },
  };
}

export type CastBuilder = ReturnType<typeof castBuilder>;

function noRows(file: string, line: number): Fault {
  return {
    file,
    line,
    found: "headings and no row",
    expected: "one row for each scan",
    mend: "Check that the file was written to its end.",
  };
}
