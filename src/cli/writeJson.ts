// A document of ours as a JSON file.
import { writeOurs } from "./writeOurs.js";

/**
 * Write a document of ours as JSON. A file that is there already is replaced only where it is empty or an
 * earlier one.
 * @param format what the document's `format` begins with, before the version
 * @throws UsageError where the file is another's, or cannot be written
 */
export async function writeJson(
  option: string,
  file: string,
  document: object,
  format: string,
): Promise<void> {
  await writeOurs(option, file, `${JSON.stringify(document, null, 2)}\n`, `"format": "${format}/`);
}
