// A file that the command line writes: whole or not at all, and never over a file of the cruise.
import { open, readlink, realpath, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import { writeWhole } from "../node/writeWhole.js";
import { UsageError } from "./usageError.js";

/** Enough to hold the mark of a file of ours, bytes. */
const markWithin = 400;

/**
 * Write a text of ours. A file that is there already is replaced only where it is empty or an earlier one.
 * @param mark   what every text of this kind has near its beginning
 * @param inputs files that were read: none of them is replaced, whatever stands in it
 * @throws UsageError if the file is another's, or cannot be written; what was there is then as it was
 */
export async function writeOurs(
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
      throw refused(option, file, "is there and was not written by foulcast");
    }
    await writeWhole(target, text);
  } catch (error) {
    if (error instanceof UsageError || !(error instanceof Error)) throw error;
    throw new UsageError(`${option} ${file}: cannot be written (${error.message})`);
  }
}

/** Where a name leads, links followed, also to a file that is not there yet. */
async function followed(file: string): Promise<string> {
  try {
    return await realpath(file);
  } catch (error) {
    if (!isAbsent(error)) throw error;
  }
  const path = resolve(file);
  // A link to what is not there leads there all the same.
  const link = await readlink(path).catch(() => undefined);
  if (link !== undefined) return followed(resolve(dirname(path), link));
  return join(await realpath(dirname(path)), basename(path));
}

/** The beginning of a file, empty where there is none. */
async function beginningOf(path: string): Promise<string> {
  let what: Awaited<ReturnType<typeof stat>>;
  try {
    what = await stat(path);
  } catch (error) {
    if (isAbsent(error)) return "";
    throw error;
  }
  if (!what.isFile()) throw new Error("this is no regular file");
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
