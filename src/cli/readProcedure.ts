// A ship's own cleaning procedure, named on the command line.
import { basename } from "node:path";
import type { Ladder } from "../cleaning/ladder/intensity.js";
import { readText } from "../node/readText.js";

/** @throws BadInput if the file cannot be read or is not a procedure; undefined if none is named */
export async function readProcedure(path: string | undefined): Promise<Ladder | undefined> {
  if (path === undefined) return undefined;
  const { text } = await readText(path, path);
  // Loaded only if needed, because it loads the library of schemas.
  const { readLadder } = await import("../cleaning/ladder/readLadder.js");
  return readLadder(text, basename(path));
}
