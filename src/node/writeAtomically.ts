// Write a file completely or not at all.
import { randomBytes } from "node:crypto";
import { type FileHandle, open, rename, stat, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/**
 * Write a file so that at any moment it has either the old text or all of the new text. The new text goes to a temporary
 * file beside it and to the disk, and then replaces it.
 */
export async function writeAtomically(path: string, text: string): Promise<void> {
  const beside = join(dirname(path), `.${basename(path)}.${randomBytes(6).toString("hex")}.part`);
  const mode = await stat(path).then(
    (known) => known.mode & 0o777,
    () => 0o666,
  );
  const file = await open(beside, "wx", mode);
  try {
    await writeAll(file, text);
    await rename(beside, path);
  } catch (error) {
    await unlink(beside).catch(() => undefined);
    throw error;
  }
  // Also the folder's own entry; not every file system can, and the guarantee above does not need it.
  const folder = await open(dirname(path), "r").catch(() => undefined);
  await folder?.sync().catch(() => undefined);
  await folder?.close();
}

async function writeAll(file: FileHandle, text: string): Promise<void> {
  try {
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
}
