// Histories of cells in a folder: one file for each cell and cruise, with one line. Each file is written completely under
// its own name, so that writers need no lock and never undo each other's work.
import { createHash } from "node:crypto";
import { mkdir, readdir } from "node:fs/promises";
import { join } from "node:path";
import { type CellRecord, recordKey } from "../history/cellRecord.js";
import { joinRecords, readRecords } from "../history/readRecords.js";
import { readText, unavailable } from "./readText.js";
import { writeAtomically } from "./writeAtomically.js";

const ending = ".jsonl";

/**
 * All records of a folder, in order of time. Files of any name that end in .jsonl count, so that histories can be merged by
 * hand; hidden files and all others are ignored.
 * @throws BadInput with file and line, if the folder cannot be read or a line is not a record
 */
export async function readFolder(folder: string): Promise<readonly CellRecord[]> {
  const names = await readdir(folder).catch((error) => {
    throw unavailable(error, folder);
  });
  const ours = names.filter((name) => name.endsWith(ending) && !name.startsWith(".")).sort();
  const placed = [];
  for (const file of ours) {
    const { text } = await readText(join(folder, file), file);
    placed.push(...readRecords(text, { file }));
  }
  return joinRecords(placed);
}

/**
 * Add records to a folder; create it if it does not exist. A record of the same cell and cruise is replaced. If the process
 * is interrupted, every record in the folder is still complete, either the older or the newer.
 * @throws an error of the file system if the folder cannot be written
 */
export async function addToFolder(folder: string, records: readonly CellRecord[]): Promise<void> {
  await mkdir(folder, { recursive: true });
  for (const record of records) {
    await writeAtomically(join(folder, fileOf(record)), `${JSON.stringify(record)}\n`);
  }
}

/** The serial number for people, followed by a hash of the key: 64 bits distinguish more records than there are cruises. */
function fileOf(record: CellRecord): string {
  const plain = record.serial.replace(/[^A-Za-z0-9-]/g, "_").slice(0, 40);
  const hash = createHash("sha256").update(recordKey(record)).digest("hex").slice(0, 16);
  return `cell-${plain}-${hash}${ending}`;
}
