// A cast's table streamed from a file: 24 Hz casts have hundreds of thousands of rows.
import { createReadStream } from "node:fs";
import { parse } from "csv-parse";
import { BadInput } from "../read/badInput.js";
import { type CastFacts, castBuilder, type ReadCast } from "../read/castBuilder.js";
import { readExchangeCast } from "../read/exchangeCast.js";
import { refuseForeign, sniff } from "../read/sniff.js";
import {
  emptyFault,
  type ParsedRecord,
  tableFault,
  tableOptions,
  tableRow,
} from "../read/table.js";
import { hashFile } from "./hashFile.js";
import { notToBeHad, readHead, readText } from "./readText.js";

/**
 * @param facts what is told of the cast; `facts.file` is its name in messages. What is told stands above what a
 *   WHP-Exchange file says of itself.
 * @throws BadInput where the file cannot be had or is no cast
 */
export async function readCastFile(path: string, facts: CastFacts): Promise<ReadCast> {
  const kind = sniff(await readHead(path, facts.file));
  refuseForeign(kind, facts.file);
  const { cast, input } =
    kind === "exchange-cast"
      ? readExchangeCast((await readText(path, facts.file)).text, facts)
      : await streamCast(path, facts);
  return { cast, input: { ...input, sha256: await hashFile(path) } };
}

async function streamCast(path: string, facts: CastFacts): Promise<ReadCast> {
  // To be told the line of each row takes as long again as reading it: so only where the count of rows does not
  // give it (comments, blank lines) and there is something to say of a line.
  const quick = await rowsThrough(path, facts, false);
  if (quick.read !== undefined && (quick.linesAreRows || quick.read.input.leftOut.length === 0)) {
    return quick.read;
  }
  const { read, error } = await rowsThrough(path, facts, true);
  if (read === undefined) throw notToBeHad(error, facts.file);
  return read;
}

interface Passage {
  readonly read?: ReadCast;
  readonly error?: unknown;
  /** Each row was one line, from the first line on. */
  readonly linesAreRows: boolean;
}

async function rowsThrough(path: string, facts: CastFacts, withLines: boolean): Promise<Passage> {
  const parser = parse({ ...tableOptions, info: withLines });
  let lastByte = 0;
  const file = createReadStream(path)
    .on("error", (error) => parser.destroy(error))
    .on("data", (chunk) => {
      lastByte = Number(chunk.at(-1));
    });
  let builder: ReturnType<typeof castBuilder> | undefined;
  let rows = 0;
  let line = 0;
  try {
    for await (const record of file.pipe(parser)) {
      rows++;
      const row = withLines
        ? tableRow(record as ParsedRecord)
        : { line: rows, cells: record as readonly string[] };
      if (builder === undefined) builder = castBuilder(row, facts);
      else builder.push(row);
      line = row.line;
    }
    if (builder === undefined) throw new BadInput([emptyFault(facts.file)]);
    // The parser counts the nothing behind the last end of line.
    const ended = lastByte === 10 || lastByte === 13 ? 1 : 0;
    return { read: builder.finish(), linesAreRows: parser.info.lines === rows + ended };
  } catch (error) {
    return { error: tableFault(error, facts.file, line), linesAreRows: false };
  } finally {
    file.destroy();
  }
}
