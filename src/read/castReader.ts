// Read a cast's table as its bytes come; the same code for a file and for a text.
import { BadInput } from "./badInput.js";
import { type CastBuilder, type CastFacts, castBuilder, type ReadCast } from "./castBuilder.js";
import { plainLines, roomFor } from "./plainLines.js";
import { emptyFault } from "./table.js";
import { cellsOfLine, type TableForm, tableForm } from "./tableForm.js";
import type { TableRow } from "./tableRow.js";
import { joined, type PlainTaker, tableRows } from "./tableRows.js";

/** Number of bytes needed to recognise the form of a table. */
const headBytes = 65_536;
/** Number of rows for a guess at a heading. */
const rowsShown = 50;

/** @param facts given beside the file; its `file` is for messages */
export function castReader(facts: CastFacts) {
  let waiting: Uint8Array[] = [];
  let bytes = 0;
  let rows: ReturnType<typeof tableRows> | undefined;
  let builder: CastBuilder | undefined;
  let form: TableForm | undefined;
  let plain: PlainTaker = () => undefined;

  const begin = (whole: boolean) => {
    const all = joined(waiting);
    waiting = [];
    const marked = all[0] === 0xef && all[1] === 0xbb && all[2] === 0xbf;
    const head = new TextDecoder().decode(all.subarray(0, headBytes));
    const mapped = Object.values(facts.mapping ?? {});
    const found = tableForm(head, mapped, whole && all.length <= headBytes);
    form = found;
    rows = tableRows(found, facts.file, {
      row: (row) => {
        if (builder === undefined) {
          builder = castBuilder(row, facts, {
            ...(found.units === undefined ? {} : { units: found.units }),
            rows: firstRows(head, found),
          });
          plain = shortWay(builder, found);
        } else if (found.units === undefined || !isUnits(row, found.units)) builder.push(row);
      },
      plain: (chunk, from) => plain(chunk, from),
    });
    rows.push(marked ? all.subarray(3) : all);
  };

  return {
    push(chunk: Uint8Array): void {
      if (rows !== undefined) rows.push(chunk);
      else {
        waiting.push(chunk);
        bytes += chunk.length;
        if (bytes >= headBytes) begin(false);
      }
    },
    /** @throws BadInput if the rows are not those of a cast */
    finish(): ReadCast {
      if (rows === undefined) begin(true);
      const { last, before } = rows!.end();
      if (builder === undefined) throw new BadInput([emptyFault(facts.file)]);
      const cut = cutShort(last, before, form!);
      if (cut !== undefined) builder.loseLast(cut);
      const { cast, input } = builder.finish();
      const units = form!.units === undefined ? [] : ["a line of units stands below the headings"];
      const latin = rows!.isLatin() ? ["the text is not UTF-8: it was read as Latin-1"] : [];
      return {
        cast,
        input: { ...input, notes: [...form!.notes, ...units, ...input.notes, ...latin] },
      };
    },
  };
}

function firstRows(head: string, form: TableForm): readonly (readonly string[])[] {
  return head
    .split(/\r\n|\n|\r/, form.headingLine + rowsShown)
    .slice(form.headingLine)
    .map((line) => cellsOfLine(line, form.separator));
}

function isUnits({ cells }: TableRow, units: readonly string[]): boolean {
  return cells.length === units.length && cells.every((cell, i) => cell === units[i]);
}

/** Takes lines of plain numbers. */
function shortWay(builder: CastBuilder, { separator, decimal }: TableForm): PlainTaker {
  // Runs of blanks and tabs are one separator: that is left to the long way.
  if (separator === " ") return () => undefined;
  const slots = new Int32Array(builder.headings).fill(-1);
  for (const [k, place] of builder.numberPlaces.entries()) slots[place] = k;
  const plan = { slots, separator: separator.charCodeAt(0), point: decimal.charCodeAt(0) };
  const taken = roomFor(plan);
  const ascii = new TextDecoder("latin1");
  return (bytes, from) => {
    plainLines(bytes, from, plan, taken);
    const { values, ends, count, next } = taken;
    if (count === 0) return undefined;
    builder.pushNumbers(
      count,
      (k) => values[k]!.subarray(0, count),
      (row, k) => {
        const cell = row * (slots.length + 1) + builder.textPlaces[k]!;
        const begins = builder.textPlaces[k] === 0 ? ends[cell]! : ends[cell]! + 1;
        return ascii.decode(bytes.subarray(begins, ends[cell + 1])).trim();
      },
    );
    const last = (count - 1) * (slots.length + 1);
    return { count, next, last: [ends[last]!, ends[last + slots.length]!] };
  };
}

/**
 * The last number of a text that ends within a line, if it has fewer decimals than the line before; otherwise undefined.
 */
function cutShort(last: string, before: string, form: TableForm): string | undefined {
  const [own, other] = [last, before].map((line) => cellsOfLine(line, form.separator));
  if (own!.length !== other!.length) return undefined;
  const [cell, whole] = [own!.at(-1)!, other!.at(-1)!];
  const decimals = (text: string) =>
    new RegExp(`^[+-]?\\d+(?:[${form.decimal}](\\d*))?$`).exec(text)?.[1];
  const missing = (decimals(whole) ?? "").length - (decimals(cell) ?? "").length;
  return /^[+-]?\d/.test(cell) && missing > 0 ? cell : undefined;
}
