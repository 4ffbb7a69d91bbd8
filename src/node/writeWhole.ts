// A file that is there whole or not at all.
import { randomBytes } from "node:crypto";
import { type FileHandle, open, rename, stat, unlink } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/**
 * Write a file so that at any moment either what was there or all of the text is there: beside it, to the disk, and
 * then in its place.
 */
export async function writeWhole(path: string, text: string): Promise<void> {
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
  // The folder's own entry: not every file system can, and none needs it for what was said above.
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
