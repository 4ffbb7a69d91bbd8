// A history, as commands read it and add to it.
import { existsSync } from "node:fs";
import type { Cruise } from "../cast/cruise.js";
import type { CellRecord } from "../history/cellRecord.js";
import { addToHistory, readHistory } from "../node/historyStore.js";
import { isSqliteError } from "../node/sqlite.js";
import { cellHistory } from "../verdict/history/cellHistory.js";
import type { VerdictDocument } from "../verdict/verdict.js";
import { UsageError } from "./usageError.js";

export { readHistory };

/** What is known; nothing where it is not there yet. */
export async function historyIfThere(place: string): Promise<readonly CellRecord[]> {
  return existsSync(place) ? readHistory(place) : [];
}

/**
 * What a cruise taught of its cells goes into the history.
 * @param option that names it, for messages
 * @returns how many cells it taught of: those whose serial number is known
 * @throws UsageError where it cannot be written
 */
export async function addCruise(
  option: string,
  place: string,
  cruise: Cruise,
  document: VerdictDocument,
): Promise<number> {
  const records = cellHistory(cruise, document);
  try {
    await addToHistory(place, records);
  } catch (error) {
    if (!isSqliteError(error) && !isOfFiles(error)) throw error;
    throw new UsageError(`${option} ${place}: cannot be written (${error.message})`);
  }
  return records.length;
}

function isOfFiles(error: unknown): error is Error {
  return error instanceof Error && "syscall" in error;
}
