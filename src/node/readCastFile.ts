// A cast's table streamed from a file: 24 Hz casts have hundreds of thousands of rows.
import { createReadStream } from "node:fs";
import { parse } from "csv-parse";
import { BadInput } from "../read/badInput.js";
import { type CastFacts, castBuilder, type ReadCast } from "../read/castBuilder.js";
import { isExchange } from "../read/exchange.js";
import { readExchangeCast } from "../read/exchangeCast.js";
import {
  checkHeadings,
  emptyFault,
  type ParsedRecord,
  tableFault,
  tableOptions,
  tableRow,
} from "../read/table.js";
import { hashFile } from "./hashFile.js";
import { notToBeHad, readText } from "./readText.js";

/**
 * @param facts what is told of the cast; `facts.file` is its name in messages
 * @throws BadInput where the file cannot be had or is no cast
 */
export async function readCastFile(path: string, facts: CastFacts): Promise<ReadCast> {
  const { cast, input } = (await startsAsExchange(path, facts.file))
    ? withFacts(readExchangeCast(await readText(path, facts.file), facts), facts)
    : await streamCast(path, facts);
  return { cast, input: { ...input, sha256: await hashFile(path) } };
}

/** What cruise.json tells of a cast stands above what the file says. */
function withFacts(
  read: ReadCast,
  { id, start, latitude, longitude, sampleRate_Hz }: CastFacts,
): ReadCast {
  const told = Object.fromEntries(
    Object.entries({ id, start, latitude, longitude, sampleRate_Hz }).filter(
      ([, value]) => value !== undefined,
    ),
  );
  return { ...read, cast: { ...read.cast, ...told } };
}

async function startsAsExchange(path: string, name: string): Promise<boolean> {
  try {
    for await (const chunk of createReadStream(path, { end: 15, encoding: "latin1" })) {
      return isExchange(String(chunk).replace(/^\u00ef\u00bb\u00bf/, ""), "CTD");
    }
    return false;
  } catch (error) {
    throw notToBeHad(error, name);
  }
}

async function streamCast(path: string, facts: CastFacts): Promise<ReadCast> {
  const parser = createReadStream(path)
    .on("error", (error) => parser.destroy(error))
    .pipe(parse(tableOptions));
  let builder: ReturnType<typeof castBuilder> | undefined;
  try {
    for await (const record of parser) {
      const row = tableRow(record as ParsedRecord);
      if (builder === undefined) {
        checkHeadings(row, facts.file);
        builder = castBuilder(row, facts);
      } else {
        builder.push(row);
      }
    }
  } catch (error) {
    if (error instanceof BadInput) throw error;
    throw notToBeHad(tableFault(error, facts.file), facts.file);
  }
  if (builder === undefined) throw new BadInput([emptyFault(facts.file)]);
  return builder.finish();
}
