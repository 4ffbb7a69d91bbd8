// Histories of cells, wherever the user keeps them: a folder of JSON lines, or an SQLite database.
import type { CellRecord } from "../history/cellRecord.js";
import { addToDatabase, readDatabase } from "./historyDatabase.js";
import { addToFolder, readFolder } from "./historyFolder.js";

/** A name with this ending is of a database, any other is of a folder. */
const ofDatabase = /\.sqlite$/i;

/**
 * All records of a history, in order of time.
 * @param place a folder, or a file that ends in .sqlite
 * @throws BadInput if it cannot be read, a line is not a record, or this Node has no SQLite
 */
export async function readHistory(place: string): Promise<readonly CellRecord[]> {
  return ofDatabase.test(place) ? readDatabase(place) : readFolder(place);
}

/**
 * Add records to a history, and create it if it does not exist. A record of the same cell and cruise is replaced. If the
 * process is stopped at any moment, each record is complete: the older one or the newer one. Two simultaneous writers lose
 * nothing.
 * @param place a folder, or a file that ends in .sqlite
 * @throws an error of the file system or of SQLite if it cannot be written; BadInput if this Node has no SQLite, or the
 *   file is the database of another program
 */
export async function addToHistory(place: string, records: readonly CellRecord[]): Promise<void> {
  await (ofDatabase.test(place) ? addToDatabase : addToFolder)(place, records);
}
