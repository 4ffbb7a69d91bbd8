// foulcast assess --many: the options for a whole archive.
import { parseArgs } from "node:util";
import { readHistory } from "../../node/index.js";
import { confidenceFrom } from "../confidence.js";
import { readCruiseOptions, readingOptions } from "../readingOptions.js";
import { readProcedure } from "../readProcedure.js";
import { UsageError } from "../usageError.js";

/** Exit status if cruises have a fault: this plus their number, up to this many. */
const faultStatus = { from: 10, most: 100 };

/** @returns the exit status */
export async function many(words: readonly string[]): Promise<number> {
  const values = parseOptions(words);
  const cores = values.cores === undefined ? undefined : Number(values.cores);
  if (cores !== undefined && !(Number.isInteger(cores) && cores >= 1 && cores <= 1024)) {
    throw new UsageError(`--cores ${values.cores}: expected a whole number from 1`);
  }
  const confidence = confidenceFrom(values.confidence);
  const ladder = await readProcedure(values.procedure);
  const { onFile: _, ...options } = await readCruiseOptions(values, undefined, () => {});
  const history = values.history === undefined ? [] : await readHistory(values.history);
  // The library for the workers is loaded only if needed, because loading delays the start.
  const { assessMany } = await import("../many/assessMany.js");
  const { append } = values;
  const faulty = await assessMany({
    ofAll: {
      options,
      history,
      settings: {
        ...(confidence === undefined ? {} : { confidence }),
        ...(ladder === undefined ? {} : { ladder }),
        ...(values["trained-hands"] === true ? { trainedHands: true } : {}),
      },
    },
    ...(cores === undefined ? {} : { cores }),
    ...(append === undefined ? {} : { append }),
  });
  return faulty === 0 ? 0 : faultStatus.from + Math.min(faulty, faultStatus.most);
}

function parseOptions(words: readonly string[]) {
  const { bottles: _, record: __, ...reading } = readingOptions;
  try {
    return parseArgs({
      args: [...words],
      options: {
        ...reading,
        many: { type: "boolean" },
        cores: { type: "string" },
        append: { type: "string" },
        confidence: { type: "string" },
        procedure: { type: "string" },
        "trained-hands": { type: "boolean" },
        history: { type: "string" },
      },
    }).values;
  } catch (error) {
    if (error instanceof TypeError) throw new UsageError(`assess --many: ${error.message}`);
    throw error;
  }
}
