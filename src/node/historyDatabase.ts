// Histories of cells in an SQLite database: a row for each cell and cruise. Each addition is one transaction, so that writers
// wait for each other and a process that is killed leaves all of it or nothing.
import { mkdir, stat } from "node:fs/promises";
import { dirname } from "node:path";
import { type CellRecord, recordKey } from "../history/cellRecord.js";
import { joinRecords, readRecords } from "../history/readRecords.js";
import { BadInput } from "../read/badInput.js";
import { unavailable } from "./readText.js";
import { type Database, isSqliteError, openDatabase, type SqliteError } from "./sqlite.js";

const table = "cell_history";
/** How long one who reads or writes waits for another, ms (judgement: an addition takes some 10 ms). */
const patience_ms = 30_000;
/** Result codes of SQLite [sqlite.org/rescode.html, from memory]. */
const [busy, cannotOpen, noDatabase] = [5, 14, 26];

/**
 * All records of a database, in order of time.
 * @throws BadInput where the file is no history, another holds it too long, or a row is no record: the row is named, counted
 *   from 1 in order of the key
 */
export async function readDatabase(file: string): Promise<readonly CellRecord[]> {
  // To open one that is not there would make it.
  await stat(file).catch((error) => {
    throw unavailable(error, file);
  });
  const texts = await withDatabase(file, (database) =>
    hasTable(database, file)
      ? database.prepare(`SELECT record FROM ${table} ORDER BY key`).all()
      : [],
  );
  // One row, one line: white space between the parts of JSON means nothing.
  const lines = texts.map(({ record }) => String(record).replace(/[\r\n]+/g, " "));
  return joinRecords(readRecords(lines.join("\n"), { file }));
}

/**
 * Add records to a database, which is made where it is not there. A record of the same cell and cruise is replaced.
 * @throws an error of SQLite where it cannot be written; BadInput where it is of something else
 */
export async function addToDatabase(file: string, records: readonly CellRecord[]): Promise<void> {
  await mkdir(dirname(file), { recursive: true });
  await withDatabase(file, (database) => {
    // Immediate: it waits for others here, and not in the middle.
    database.exec("BEGIN IMMEDIATE");
    if (!hasTable(database, file)) {
      database.exec(`CREATE TABLE ${table} (key TEXT PRIMARY KEY, record TEXT NOT NULL) STRICT`);
    }
    const add = database.prepare(`INSERT OR REPLACE INTO ${table} (key, record) VALUES (?, ?)`);
    for (const record of records) add.run(recordKey(record), JSON.stringify(record));
    database.exec("COMMIT");
  });
}

/** Closing undoes what was not committed. */
async function withDatabase<T>(file: string, work: (database: Database) => T): Promise<T> {
  try {
    const database = await openDatabase(file);
    try {
      database.exec(`PRAGMA busy_timeout = ${patience_ms}`);
      return work(database);
    } finally {
      database.close();
    }
  } catch (error) {
    throw isSqliteError(error) ? asBadInput(error, file) : error;
  }
}

/** @throws BadInput where it holds other tables and not ours: nothing is written into what is of another program */
function hasTable(database: Database, file: string): boolean {
  const names = database.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").all();
  if (names.some(({ name }) => name === table)) return true;
  if (names.length === 0) return false;
  throw new BadInput([
    {
      file,
      line: 0,
      found: "a database without the table cell_history",
      expected: "a history that foulcast made, or a name that is free",
      mend: "Choose another file: this one belongs to another program.",
    },
  ]);
}

/** What the file is at fault for; other errors, as of a disk that is full, are as they are. */
function asBadInput(error: SqliteError, file: string): unknown {
  const faults = {
    [busy]: {
      found: `a history that another process has held for ${patience_ms / 1000} s`,
      expected: "one that no other process is using",
      mend: "Look for a process that holds it, and try again.",
    },
    [cannotOpen]: {
      found: "a file that SQLite cannot open",
      expected: "a history that may be read, in a folder that may be written to",
      mend: "Check its name, place and permissions.",
    },
    [noDatabase]: {
      found: "a file that is not an SQLite database",
      expected: "a history that foulcast made, or a name that is free",
      mend: "Check its name. A history in JSON lines is named by its folder.",
    },
  };
  const fault = faults[error.errcode & 0xff];
  return fault === undefined ? error : new BadInput([{ file, line: 0, ...fault }]);
}
