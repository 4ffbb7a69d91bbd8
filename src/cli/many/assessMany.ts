// foulcast assess --many: names of cruises in, a line of JSON each out, in the order of the names.
import { availableParallelism } from "node:os";
import { createInterface } from "node:readline";
import { Piscina } from "piscina";
import { progressLine } from "../progress.js";
import { whatIsDone } from "./manyLine.js";
import type { OfAll } from "./oneCruise.js";
import { openOutput } from "./outputFile.js";

export interface ManySettings {
  readonly ofAll: OfAll;
  /** Processes at once; those of the machine if absent. */
  readonly cores?: number;
  /** The file to add to; standard output if absent. */
  readonly append?: string;
}

/** Cruises that may wait or be in work, for each core: enough to keep all busy, few enough to hold in memory (judgement). */
const ahead = 3;

/** @returns how many cruises have a fault, those of earlier runs on the same file included */
export async function assessMany({
  ofAll,
  cores = availableParallelism(),
  append,
}: ManySettings): Promise<number> {
  const output = append === undefined ? undefined : await openOutput(append);
  const done = new Set(output?.done);
  let faulty = output?.faulty ?? 0;
  const write = async (text: string) => {
    if (output !== undefined) await output.file.appendFile(text);
    else if (!process.stdout.write(text))
      await new Promise((drained) => process.stdout.once("drain", drained));
  };
  const pool = new Piscina<string, string>({
    filename: new URL("./oneCruise.js", import.meta.url).href,
    workerData: ofAll,
    minThreads: 1,
    maxThreads: cores,
    idleTimeout: Number.POSITIVE_INFINITY,
  });
  const progress = progressLine("assessing");
  const waiting: { readonly name: string; readonly line: Promise<string> }[] = [];
  let written = 0;
  const writeOldest = async () => {
    const { name, line } = waiting.shift()!;
    const text = await line;
    if (whatIsDone(text)?.faulty !== false) faulty += 1;
    await write(`${text}\n`);
    written += 1;
    progress.show(written, written + waiting.length, name);
  };
  try {
    for await (const given of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
      const name = given.trim();
      if (name === "" || done.has(name)) continue;
      done.add(name);
      // A worker that dies, out of memory for one, takes only its own cruise with it.
      const line = pool
        .run(name)
        .catch((error: unknown) => JSON.stringify({ name, error: String(error) }));
      waiting.push({ name, line });
      if (waiting.length >= ahead * cores) await writeOldest();
    }
    while (waiting.length > 0) await writeOldest();
  } finally {
    progress.end();
    await pool.destroy();
    await output?.file.close();
  }
  return faulty;
}
