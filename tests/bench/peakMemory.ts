// How much memory a verdict takes at its peak: the growth of the resident set of a process of its own, which
// has the columns in memory, makes one verdict and ends. Code that is compiled on the way and what is not yet
// collected count. The peak is the one that Linux keeps for each process.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { deserialize, serialize } from "node:v8";
import type { Cruise } from "../../src/cast/cruise.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { columnsOf } from "./fullCast.js";

export interface PeakMemory {
  /** Of the columns, bytes. */
  readonly columns: number;
  /** Growth while the verdict was made, bytes. */
  readonly growth: number;
  /** Of that first verdict, ms: nothing is compiled yet. */
  readonly firstVerdict: number;
}

export function peakMemory(cruise: Cruise): PeakMemory {
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const file = join(folder, "cruise.v8");
    writeFileSync(file, serialize(cruise));
    const own = fileURLToPath(import.meta.url);
    const { stdout } = spawnSync(process.execPath, ["--expose-gc", own, file], {
      encoding: "utf8",
    });
    return JSON.parse(stdout) as PeakMemory;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** In the process of its own. */
function measure(file: string): PeakMemory {
  const cruise = deserialize(readFileSync(file)) as Cruise;
  const columns = columnsOf(cruise).reduce((sum, { byteLength }) => sum + byteLength, 0);
  globalThis.gc?.();
  writeFileSync("/proc/self/clear_refs", "5");
  const before = peakResident();
  const start = performance.now();
  assessCruise(cruise);
  const firstVerdict = performance.now() - start;
  return { columns, growth: peakResident() - before, firstVerdict };
}

/** Since it was last set back, bytes. */
function peakResident(): number {
  const kilobytes = /VmHWM:\s+(\d+) kB/.exec(readFileSync("/proc/self/status", "utf8"))?.[1];
  return 1024 * Number(kilobytes);
}

const [, script, file] = process.argv;
if (script === fileURLToPath(import.meta.url) && file !== undefined) {
  console.log(JSON.stringify(measure(file)));
}
