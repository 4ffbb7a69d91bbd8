// Write a file: completely or not at all, and never over a file of the cruise.
import { open, readlink, realpath, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { writeAtomically } from "../node/writeAtomically.js";
import { UsageError } from "./usageError.js";

/** Number of bytes that contain the mark of our files. */
const markWithin = 400;

/**
 * Write one of our texts. An existing file is replaced only if it is empty or an earlier version.
 * @param mark   text near the beginning of every file of this kind
 * @param inputs files that were read: none of them is replaced, whatever its content
 * @throws UsageError if the file is of another kind, or cannot be written; its content is then unchanged
 */
export async function writeOwnFile(
  option: string,
  file: string,
  text: string,
  mark: string,
  inputs: readonly string[] = [],
): Promise<void> {
  try {
    const target = await followed(file);
    for (const input of inputs) {
      if ((await followed(input).catch(() => input)) === target)
        throw refused(option, file, "is one that was read");
    }
    const before = await beginningOf(target);
    if (before !== "" && !before.includes(mark)) {
      throw refused(option, file, "exists already and was not written by foulcast");
    }
    await writeAtomically(target, text);
  } catch (error) {
    if (error instanceof UsageError || !(error instanceof Error)) throw error;
    throw new UsageError(`${option} ${file}: cannot be written (${error.message})`);
  }
}

/** The target of a path after all links, also for a file that does not exist yet. */
async function followed(file: string): Promise<string> {
  try {
    return await realpath(file);
  } catch (error) {
    if (!isAbsent(error)) throw error;
  }
  const path = resolve(file);
  // A link to a missing file still leads there.
  const link = await readlink(path).catch(() => undefined);
  if (link !== undefined) return followed(resolve(dirname(path), link));
  return join(await realpath(dirname(path)), basename(path));
}

/** The beginning of a file, empty if there is none. */
async function beginningOf(path: string): Promise<string> {
  let what: Awaited<ReturnType<typeof stat>>;
  try {
    what = await stat(path);
  } catch (error) {
    if (isAbsent(error)) return "";
    throw error;
  }
  if (!what.isFile()) throw new Error("this is not a regular file");
  const file = await open(path);
  try {
    const { bytesRead, buffer } = await file.read(Buffer.alloc(markWithin), 0, markWithin, 0);
    return buffer.toString("utf8", 0, bytesRead);
  } finally {
    await file.close();
  }
}

function isAbsent(error: unknown): boolean {
  return error instanceof Error && "code" in error && error.code === "ENOENT";
}

function refused(option: string, file: string, why: string): UsageError {
  return new UsageError(
    `${option} ${file}: this file ${why}, so it is left as it is; name another`,
  );
}
