// A file that the command line writes: never over a file of the cruise, raw data are not overwritten.
import { readFile, writeFile } from "node:fs/promises";
import { UsageError } from "./usageError.js";

/**
 * Write a text of ours. A file that is there already is replaced only where it is empty or an earlier one.
 * @param mark what every text of this kind has near its beginning
 * @throws UsageError where the file is another's, or cannot be written
 */
export async function writeOurs(
  option: string,
  file: string,
  text: string,
  mark: string,
): Promise<void> {
  try {
    const before = await readFile(file, "utf8").catch(absent);
    if (before && !before.slice(0, 400).includes(mark)) {
      throw new UsageError(
        `${option} ${file}: this file is there and was not written by foulcast, so it is left as it is; name another`,
      );
    }
    await writeFile(file, text);
  } catch (error) {
    if (error instanceof UsageError || !(error instanceof Error)) throw error;
    throw new UsageError(`${option} ${file}: cannot be written (${error.message})`);
  }
}

function absent(error: NodeJS.ErrnoException): undefined {
  if (error.code !== "ENOENT") throw error;
}
