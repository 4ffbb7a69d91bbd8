// The SQLite of Node itself, where this Node has it: `node:sqlite`. What is used of it is described here, for the types of
// older Nodes do not know it.
import { BadInput } from "../read/badInput.js";

export interface Database {
  exec(sql: string): void;
  prepare(sql: string): {
    all(...values: readonly string[]): readonly Readonly<Record<string, unknown>>[];
    run(...values: readonly string[]): unknown;
  };
  close(): void;
}

/** An error that SQLite itself gave: `errcode` is its result code, the lowest byte the primary one. */
export interface SqliteError extends Error {
  readonly code: "ERR_SQLITE_ERROR";
  readonly errcode: number;
}

export function isSqliteError(error: unknown): error is SqliteError {
  return error instanceof Error && "code" in error && error.code === "ERR_SQLITE_ERROR";
}

/**
 * A database, made where there is none.
 * @throws BadInput where this Node has no SQLite; an error of SQLite where the file cannot be opened
 */
export async function openDatabase(path: string): Promise<Database> {
  // A name in a variable: a bundler leaves it, and a compiler does not ask for its types.
  const name = "node:sqlite";
  let sqlite: { readonly DatabaseSync: new (path: string) => Database };
  try {
    sqlite = await import(name);
  } catch (error) {
    if (!isUnknownModule(error)) throw error;
    throw new BadInput([
      {
        file: path,
        line: 0,
        found: `an SQLite history, and Node ${process.version} without its module node:sqlite`,
        // From memory, as are the versions below: Node's own documentation has the last word.
        expected: "Node 22.13 or later, where its SQLite is not turned off",
        mend: "Name a folder instead: a history in JSON lines works with every Node. Node 22.5 to 22.12 and 23.0 to 23.3 need the option --experimental-sqlite.",
      },
    ]);
  }
  return new sqlite.DatabaseSync(path);
}

function isUnknownModule(error: unknown): boolean {
  return error instanceof Error && "code" in error && error.code === "ERR_UNKNOWN_BUILTIN_MODULE";
}
