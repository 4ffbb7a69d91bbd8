// Split bytes into the rows of a table as they come. The caller may take lines of plain numbers as bytes. The CSV library
// reads lines with quotes, whole records at a time. Time and memory are proportional to the text.
import { parse } from "csv-parse/browser/esm/sync";
import { BadInput } from "./badInput.js";
import { lastWholeLine, plainCells, pointed, tableFault, tableOptions } from "./table.js";
import type { TableForm } from "./tableForm.js";
import type { ParsedRecord, TableRow } from "./tableRow.js";

/** Longest line, or record in quotes, of any table, bytes. */
const longest = 4_194_304;
const [newline, carriageReturn, quote] = [10, 13, 34];

/**
 * Takes lines as bytes, from where one begins, as many as it can; those that have no end are none.
 * @returns undefined where it took none; else how many, where the next begins, and where the last of them begins and ends
 */
export type PlainTaker = (
  bytes: Uint8Array,
  from: number,
) =>
  | { readonly count: number; readonly next: number; readonly last: readonly [number, number] }
  | undefined;

/** What is done with a row, and with lines as bytes. */
interface RowTakers {
  readonly row: (row: TableRow) => void;
  readonly plain: PlainTaker;
}

/** @param form known before the first byte */
export function tableRows(form: TableForm, file: string, take: RowTakers) {
  let rest = new Uint8Array(0);
  let line = 0;
  let lastRow = 0;
  let latin = false;
  /** Raw lines with quotes, not yet read; and whether the last of them leaves a quote open. */
  let quoted: Uint8Array[] = [];
  let quotedBytes = 0;
  let quotedFrom = 0;
  let open = false;
  /** The last complete line. */
  let before = "";

  const decode = (bytes: Uint8Array): string => {
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      latin = true;
      return new TextDecoder("latin1").decode(bytes);
    }
  };
  const give = (row: TableRow) => {
    lastRow = row.line;
    take.row(row);
  };
  const flush = () => {
    if (quotedBytes === 0) return;
    const text = decode(joined(quoted));
    const earlier = quotedFrom - 1;
    quoted = [];
    quotedBytes = 0;
    open = false;
    const options = { ...tableOptions, delimiter: form.separator, info: true };
    let records: readonly ParsedRecord[];
    try {
      records = parse(text, options) as unknown as readonly ParsedRecord[];
    } catch (error) {
      const whole = lastWholeLine(text, options);
      throw tableFault(error, file, whole > 0 ? earlier + whole : lastRow, earlier);
    }
    for (const { record, info } of records) {
      give({ line: earlier + info.lines, cells: pointed(record, form) });
    }
  };
  /** @param next start of the next line */
  const oneLine = (bytes: Uint8Array, from: number, to: number, next: number) => {
    line++;
    if (line < form.headingLine) return;
    if (!open) {
      if (!bytes.subarray(from, to).includes(quote)) {
        flush();
        const text = decode(bytes.subarray(from, to)).trim();
        if (text !== "" && !text.startsWith("#")) give({ line, cells: plainCells(text, form) });
        return;
      }
      if (decode(bytes.subarray(from, to)).trimStart().startsWith("#")) return flush();
      if (quotedBytes === 0) quotedFrom = line;
    }
    quoted.push(bytes.slice(from, next));
    quotedBytes += next - from;
    if (odd(bytes, from, to)) open = !open;
    if (quotedBytes > longest || (!open && quotedBytes > 65_536)) flush();
  };
  const lines = (bytes: Uint8Array, ended: boolean): number => {
    let at = 0;
    let lastFrom = 0;
    let lastTo = 0;
    let nl = bytes.indexOf(newline);
    let cr = bytes.indexOf(carriageReturn);
    const goOn = (next: number) => {
      at = next;
      if (nl >= 0 && nl < at) nl = bytes.indexOf(newline, at);
      if (cr >= 0 && cr < at) cr = bytes.indexOf(carriageReturn, at);
    };
    while (nl >= 0 || cr >= 0) {
      const plain =
        line >= form.headingLine && quotedBytes === 0 && !open ? take.plain(bytes, at) : undefined;
      if (plain !== undefined) {
        line += plain.count;
        lastRow = line;
        [lastFrom, lastTo] = plain.last;
        goOn(plain.next);
        continue;
      }
      const to = nl < 0 || (cr >= 0 && cr < nl) ? cr : nl;
      // The byte after a carriage return at the very end is not known yet.
      if (to === cr && to === bytes.length - 1 && !ended) break;
      const next = to === cr && bytes[to + 1] === newline ? to + 2 : to + 1;
      oneLine(bytes, at, to, next);
      [lastFrom, lastTo] = [at, to];
      goOn(next);
    }
    if (lastTo > 0) before = decode(bytes.subarray(lastFrom, lastTo));
    return at;
  };

  return {
    push(chunk: Uint8Array): void {
      const bytes = rest.length === 0 ? chunk : joined([rest, chunk]);
      rest = bytes.slice(lines(bytes, false));
      if (rest.length > longest) throw new BadInput([endless(file, line + 1)]);
    },
    /** @returns the last line if it has no line end like the others, and the one before it */
    end(): { readonly last: string; readonly before: string } {
      const at = lines(rest, true);
      const last = rest.subarray(at);
      const told = { last: decode(last), before };
      if (last.length > 0) oneLine(last, 0, last.length, last.length);
      flush();
      return told;
    },
    /** Whether some of the text was not UTF-8. */
    isLatin: () => latin,
    line: () => line,
  };
}

function odd(bytes: Uint8Array, from: number, to: number): boolean {
  let count = 0;
  for (let i = from; i < to; i++) if (bytes[i] === quote) count++;
  return count % 2 === 1;
}

export function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

function endless(file: string, line: number) {
  return {
    file,
    line,
    found: `a line of more than ${longest} bytes`,
    expected: "rows with line breaks between them",
    mend: "Check that this is a table, and that it was written with line breaks.",
  };
}
