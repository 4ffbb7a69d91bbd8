// Whether the Node that runs the tests has SQLite: from 22.13 on.
import { isBuiltin } from "node:module";

export const sqliteHere = isBuiltin("node:sqlite");
export const skippedWithout = sqliteHere
  ? ""
  : ` (skipped: Node ${process.version} has no node:sqlite, run the tests with 22.13 or later)`;
