// Text files, and the messages if one cannot be read. Pipes, devices and sockets are refused, because they may have no end.
import { type FileHandle, open, stat } from "node:fs/promises";
import { BadInput, type Fault } from "../read/badInput.js";

/** Decoded text, and notes on the decoding. */
interface DecodedText {
  readonly text: string;
  readonly notes: readonly string[];
}

/** Upper limit of a file that is read as a whole (bottles, records, WHP-Exchange), bytes. */
const mostWhole = 268_435_456;
/** Enough bytes for the comments before the first line of data. */
const headBytes = 65_536;

/** UTF-8; if a file is not valid UTF-8, as in old archives, it is read as Latin-1 with a note. */
export async function readText(path: string, name: string): Promise<DecodedText> {
  return decoded(await readBytes(path, name));
}

export async function readBytes(path: string, name: string): Promise<Uint8Array> {
  return withFile(path, name, async (file, size) => {
    if (size > mostWhole) throw new BadInput([tooLong(name, size)]);
    const bytes = new Uint8Array(size);
    let at = 0;
    while (at < size) {
      const { bytesRead } = await file.read(bytes, at, size - at, at);
      if (bytesRead === 0) break;
      at += bytesRead;
    }
    return bytes.subarray(0, at);
  });
}

export function decoded(bytes: Uint8Array): DecodedText {
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), notes: [] };
  } catch {
    const text = new TextDecoder("latin1").decode(bytes);
    return { text, notes: ["the text is not UTF-8: it was read as Latin-1"] };
  }
}

/** The beginning of a file, one character a byte. */
export async function readHead(path: string, name: string): Promise<string> {
  return withFile(path, name, async (file) => {
    const { bytesRead, buffer } = await file.read(Buffer.alloc(headBytes), 0, headBytes, 0);
    return buffer.toString("latin1", 0, bytesRead);
  });
}

/**
 * Work on a regular file that is closed afterwards in any case.
 * @param work receives the file and its present size in bytes; later additions are ignored
 * @throws BadInput if the file does not exist, is not readable, or is not a regular file
 */
export async function withFile<T>(
  path: string,
  name: string,
  work: (file: FileHandle, size: number) => Promise<T>,
): Promise<T> {
  try {
    // Checked before it is opened, because opening a pipe waits for its writer.
    const what = await stat(path);
    if (!what.isFile() && !what.isDirectory()) throw new BadInput([endless(name)]);
    const file = await open(path);
    try {
      return await work(file, what.size);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw unavailable(error, name);
  }
}

export async function isFolder(path: string, name: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch (error) {
    throw unavailable(error, name);
  }
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: "no such file",
  ENOTDIR: "no such file",
  EACCES: "a file that may not be read",
  EPERM: "a file that may not be read",
  EISDIR: "a folder",
  ERR_INVALID_ARG_VALUE: "a name that no file can have",
  ENAMETOOLONG: "a name that no file can have",
  ELOOP: "a link that leads to itself",
};

/** An error of the file system as bad input; any other error unchanged. */
export function unavailable(error: unknown, file: string): unknown {
  if (!(error instanceof Error) || !("code" in error)) return error;
  const code = String(error.code);
  const found = reasons[code] ?? ("syscall" in error ? `a file that gives ${code}` : undefined);
  if (found === undefined) return error;
  return new BadInput([
    {
      file,
      line: 0,
      found,
      expected: "a file that can be read",
      mend: "Check its name, place and permissions.",
    },
  ]);
}

function endless(file: string): Fault {
  return {
    file,
    line: 0,
    found: "a pipe, a device or a socket",
    expected: "a regular file",
    mend: "Write the data to a file first, and name that.",
  };
}

function tooLong(file: string, size: number): Fault {
  const MB = (bytes: number) => `${(bytes / 1e6).toFixed(0)} MB`;
  return {
    file,
    line: 0,
    found: `a file of ${MB(size)}`,
    expected: `${MB(mostWhole)} at the most for a file that is read whole`,
    mend: "Check that this is the file that you meant, or split it.",
  };
}
