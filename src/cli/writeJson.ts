// Write one of our documents as a JSON file.
import { writeOwnFile } from "./writeOwnFile.js";

/**
 * Write one of our documents as JSON. An existing file is replaced only if it is empty or an earlier version.
 * @param format beginning of the document's `format`, before the version
 * @param inputs files that were read: none of them is replaced
 * @throws UsageError if the file is of another kind, or cannot be written
 */
export async function writeJson(
  option: string,
  file: string,
  document: object,
  format: string,
  inputs: readonly string[] = [],
): Promise<void> {
  const text = `${JSON.stringify(document, null, 2)}\n`;
  await writeOwnFile(option, file, text, `"format": "${format}/`, inputs);
}
