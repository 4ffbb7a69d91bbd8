// The form of a table: the separator, the decimal sign and the line of the headings. Commas and points are the default.
// Another form is used only if it alone makes a table of the text.
import { parse } from "csv-parse/browser/esm/sync";

type Separator = "," | ";" | "\t" | " ";

export interface TableForm {
  readonly separator: Separator;
  readonly decimal: "." | ",";
  /** Line of the headings, from 1. */
  readonly headingLine: number;
  /** The line of units below the headings, cell by cell; absent if there is none. */
  readonly units?: readonly string[];
  /** Assumptions, in plain words. */
  readonly notes: readonly string[];
}

/** Every possible heading of our tables; one of them identifies the line of headings if the separator is the comma. */
const ours =
  /^(pressure_dbar|temperature2?_C|conductivity2?_(mS_cm|S_m)|salinity2?|time_s|cast|bottle|action|after_cast|potential_temperature_C)$/;
/** Number of lines to search, and number of rows that must confirm the headings. */
const linesLookedAt = 400;
const rowsAsked = 3;
const separators: readonly Separator[] = [",", "\t", ";", " "];
const names: Readonly<Record<Separator, string>> = {
  ",": "commas",
  "\t": "tabs",
  ";": "semicolons",
  " ": "blanks",
};

/**
 * @param head    the beginning of the text, or all of it
 * @param mapped  headings of the file that the user has mapped
 * @param whole   whether `head` is all of the text; otherwise its last line is ignored
 */
export function tableForm(head: string, mapped: readonly string[], whole: boolean): TableForm {
  const lines = firstLines(head, whole);
  const known = (cell: string) => ours.test(cell) || mapped.includes(cell);
  const first = lines[0];
  const plain: TableForm = {
    separator: ",",
    decimal: ".",
    headingLine: first?.line ?? 1,
    notes: [],
  };
  if (first === undefined) return plain;
  const usual = cellsOfLine(first.text, ",");
  if (usual.length > 1 && usual.some(known)) return withUnits(plain, lines, 0);
  const found = separators.flatMap((separator) => {
    const at = headingAmong(lines, separator, known);
    return at === undefined ? [] : [{ separator, ...at }];
  });
  const named = found.filter((candidate) => candidate.named);
  const [form, other] = named.length > 0 ? named : found;
  if (form === undefined || other !== undefined) return plain;
  return withUnits(noted(form, lines), lines, form.at);
}

interface Line {
  readonly line: number;
  readonly text: string;
}

/** Lines that are neither blank nor a comment. */
function firstLines(head: string, whole: boolean): readonly Line[] {
  const all = head.replace(/^\ufeff/, "").split(/\r\n|\n|\r/, linesLookedAt + 1);
  if (!whole || all.length > linesLookedAt) all.pop();
  return all
    .map((text, i) => ({ line: i + 1, text: text.trim() }))
    .filter(({ text }) => text !== "" && !text.startsWith("#"));
}

/** The cells of one line; none if its quotes are wrong. */
export function cellsOfLine(line: string, separator: Separator): readonly string[] {
  if (separator === " ") return line.trim().split(/ +/);
  if (!line.includes('"')) return line.split(separator).map((cell) => cell.trim());
  try {
    const options = { delimiter: separator, relax_column_count: true, trim: true };
    return parse(line, options)[0] ?? [];
  } catch {
    return [];
  }
}

const number = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d+)?$/;
const isNumber = (cell: string) => number.test(cell) || /^(nan|)$/i.test(cell);

/** The line of headings for which this separator makes a table, and whether it has known headings. */
function headingAmong(
  lines: readonly Line[],
  separator: Separator,
  known: (cell: string) => boolean,
): { readonly at: number; readonly named: boolean } | undefined {
  const cells = lines.map(({ text }) => cellsOfLine(text, separator));
  const named = cells.findIndex((row) => row.filter(known).length > 1);
  if (named >= 0) return { at: named, named: true };
  const at = cells.findIndex((row, i) => {
    if (row.length < 2 || row.some((cell) => cell === "" || number.test(cell))) return false;
    // A line of units may come between.
    return [i + 1, i + 2].some((start) => {
      const below = cells.slice(start, start + rowsAsked);
      return below.length > 0 && below.every((other) => isRowUnder(other, row.length));
    });
  });
  return at < 0 ? undefined : { at, named: false };
}

function isRowUnder(cells: readonly string[], headings: number): boolean {
  return cells.length === headings && cells.filter(isNumber).length >= headings / 2;
}

function noted(
  { separator, at }: { readonly separator: Separator; readonly at: number },
  lines: readonly Line[],
): TableForm {
  const { line } = lines[at]!;
  const cells = lines.slice(at + 1).flatMap(({ text }) => cellsOfLine(text, separator));
  const marked = (sign: "." | ",") =>
    cells.some((cell) => cell.includes(sign) && number.test(cell));
  const commas = separator !== "," && marked(",") && !marked(".");
  const before = lines[0]!.line < line ? line - 1 : 0;
  return {
    separator,
    decimal: commas ? "," : ".",
    headingLine: line,
    notes: [
      ...(separator === "," ? [] : [`${names[separator]} between the cells, not commas`]),
      ...(commas ? ["decimal commas were read as points"] : []),
      ...(before > 0 ? [`${before} lines before the headings were skipped`] : []),
    ],
  };
}

/** A line of units below the headings is not a row: the same number of cells, none a number, and a unit among them. */
function withUnits(form: TableForm, lines: readonly Line[], at: number): TableForm {
  const headings = cellsOfLine(lines[at]!.text, form.separator);
  const below = lines[at + 1];
  if (below === undefined) return form;
  const units = cellsOfLine(below.text, form.separator);
  const isUnits =
    units.length === headings.length &&
    // The unit of salinity may be 1.
    !units.some((cell) => number.test(cell) && !/^(1|1e-0?3|0\.001)$/.test(cell)) &&
    units.some((cell) => unit.test(cell));
  if (!isUnits) return form;
  return { ...form, units };
}

/** Units of the quantities of a cast, in CF and common spelling. */
const unit =
  /^\(?(d?bars?|decibars?|deg(ree)?s?[ _]?C(elsius)?|\u00b0C|Celsius|mS[ /]?cm(-1|\^-1)?|mS cm-1|S[ /]?m(-1|\^-1)?|k?Pa|K|kelvin|degrees_(north|east)|UTC|seconds?|s|PSU|PSS-?78|1e-3)\)?$/i;
