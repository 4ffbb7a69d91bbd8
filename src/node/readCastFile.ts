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
  const parser = createReadStream(path)
    .on("error", (error) => parser.destroy(error))
    .pipe(parse(tableOptions));
  let builder: ReturnType<typeof castBuilder> | undefined;
  let line = 0;
  try {
    for await (const record of parser) {
      const row = tableRow(record as ParsedRecord);
      if (builder === undefined) builder = castBuilder(row, facts);
      else builder.push(row);
      line = row.line;
    }
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw notToBeHad(tableFault(error, facts.file, line), facts.file);
  }
  if (builder === undefined) throw new BadInput([emptyFault(facts.file)]);
  return builder.finish();
}
