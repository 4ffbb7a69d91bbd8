// A folder of histories, as commands read and write it.
import { existsSync } from "node:fs";
import type { CellRecord } from "../history/cellRecord.js";
import { readHistory } from "../node/index.js";
import { UsageError } from "./usageError.js";

/** What is known; nothing where the folder is not there yet. */
export async function historyIfThere(folder: string): Promise<readonly CellRecord[]> {
  return existsSync(folder) ? readHistory(folder) : [];
}

/** @throws UsageError where the folder cannot be written */
export async function keptIn(
  option: string,
  folder: string,
  write: () => Promise<void>,
): Promise<void> {
  try {
    await write();
  } catch (error) {
    if (!(error instanceof Error) || !("syscall" in error)) throw error;
    throw new UsageError(`${option} ${folder}: cannot be written (${error.message})`);
  }
}
