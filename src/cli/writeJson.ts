// A document of ours as a JSON file.
import { writeOurs } from "./writeOurs.js";

/**
 * Write a document of ours as JSON. A file that is there already is replaced only where it is empty or an
 * earlier one.
 * @param format what the document's `format` begins with, before the version
 * @param inputs files that were read: none of them is replaced
 * @throws UsageError if the file is another's, or cannot be written
 */
export async function writeJson(
  option: string,
  file: string,
  document: object,
  format: string,
  inputs: readonly string[] = [],
): Promise<void> {
  const text = `${JSON.stringify(document, null, 2)}\n`;
  await writeOurs(option, file, text, `"format": "${format}/`, inputs);
}
