// foulcast assess --many: input are names of cruises; output is a line of JSON for each, in the same order.
import { availableParallelism } from "node:os";
import { createInterface } from "node:readline";
import { Piscina } from "piscina";
import { progressLine } from "../progress.js";
import { whatIsDone } from "./manyLine.js";
import type { OfAll } from "./oneCruise.js";
import { openOutput } from "./outputFile.js";

export interface ManySettings {
  readonly ofAll: OfAll;
  /** Number of processes; that of the machine's cores if absent. */
  readonly cores?: number;
  /** The file to add to; standard output if absent. */
  readonly append?: string;
}

/** Number of cruises waiting or in work for each core: enough to keep all busy, few enough for the memory (judgement). */
const ahead = 3;

/** @returns the number of cruises with a fault, including those of earlier runs on the same file */
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
      // If a worker dies, for instance without memory, only its own cruise fails.
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
