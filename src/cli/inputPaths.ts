// The files that a command read, so that none of them is overwritten.
import { dirname, join } from "node:path";
import type { Cruise } from "../cast/cruise.js";
import { isFolder } from "../node/readText.js";

/**
 * @param path  the folder or file of the command
 * @param named other files that were named
 */
export async function inputPaths(
  path: string,
  cruise: Cruise,
  named: readonly (string | undefined)[],
): Promise<readonly string[]> {
  const folder = (await isFolder(path, path)) ? path : dirname(path);
  return [
    path,
    ...cruise.inputs.map(({ name }) => join(folder, name)),
    ...named.filter((file) => file !== undefined),
  ];
}
