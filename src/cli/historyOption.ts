// The option for a folder of histories: commands read it and add to it.
import { existsSync } from "node:fs";
import type { Cruise } from "../cast/cruise.js";
import type { CellRecord } from "../history/cellRecord.js";
import { addToHistory, readHistory } from "../node/historyFolder.js";
import { cellHistory } from "../verdict/history/cellHistory.js";
import type { VerdictDocument } from "../verdict/verdict.js";
import { UsageError } from "./usageError.js";

export { readHistory };

/** The records in the folder; none if the folder does not exist yet. */
export async function historyIfThere(folder: string): Promise<readonly CellRecord[]> {
  return existsSync(folder) ? readHistory(folder) : [];
}

/**
 * Add the results of a cruise for its cells to the folder.
 * @param option its name, for messages
 * @returns the number of cells added: those with a known serial number
 * @throws UsageError if the folder cannot be written
 */
export async function addCruise(
  option: string,
  folder: string,
  cruise: Cruise,
  document: VerdictDocument,
): Promise<number> {
  const records = cellHistory(cruise, document);
  try {
    await addToHistory(folder, records);
  } catch (error) {
    if (!(error instanceof Error) || !("syscall" in error)) throw error;
    throw new UsageError(`${option} ${folder}: cannot be written (${error.message})`);
  }
  return records.length;
}
