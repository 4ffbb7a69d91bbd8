// The output file of `assess --many`: lines are added, so that an interrupted run can continue.
import { type FileHandle, open } from "node:fs/promises";
import { UsageError } from "../usageError.js";
import { mayBeCut, whatIsDone } from "./manyLine.js";

export interface OutputFile {
  /** Names that have a line. */
  readonly done: ReadonlySet<string>;
  /** The number of them with a fault. */
  readonly faulty: number;
  readonly file: FileHandle;
}

const newline = 0x0a;
const pieceBytes = 1 << 20;

/**
 * Open a file to add lines; create it if it does not exist. A truncated last line is removed, and its cruise is assessed
 * again.
 * @throws UsageError if a line is not of `assess --many`: the file is then not changed
 */
export async function openOutput(path: string): Promise<OutputFile> {
  const file = await open(path, "a+").catch((error: Error) => {
    throw new UsageError(`--append ${path}: cannot be written (${error.message})`);
  });
  try {
    if (!(await file.stat()).isFile()) throw refused(path);
    const done = new Set<string>();
    let faulty = 0;
    let whole = 0;
    let rest = Buffer.alloc(0);
    const piece = Buffer.alloc(pieceBytes);
    for (let at = 0; ; ) {
      const { bytesRead } = await file.read(piece, 0, pieceBytes, at);
      if (bytesRead === 0) break;
      at += bytesRead;
      rest = Buffer.concat([rest, piece.subarray(0, bytesRead)]);
      for (let end = rest.indexOf(newline); end >= 0; end = rest.indexOf(newline)) {
        const found = whatIsDone(rest.toString("utf8", 0, end));
        if (found === undefined) throw refused(path);
        done.add(found.name);
        if (found.faulty) faulty += 1;
        rest = rest.subarray(end + 1);
        whole += end + 1;
      }
    }
    if (!mayBeCut(rest.toString("utf8"))) throw refused(path);
    if (rest.length > 0) await file.truncate(whole);
    return { done, faulty, file };
  } catch (error) {
    await file.close();
    throw error;
  }
}

function refused(path: string): UsageError {
  return new UsageError(
    `--append ${path}: foulcast assess --many did not write this file, so it is left as it is. Name another`,
  );
}
