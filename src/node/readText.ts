// Text files, and what is said when one cannot be had.
import { open, readFile, stat } from "node:fs/promises";
import { BadInput } from "../read/badInput.js";

/** Text as it was decoded, and what is to be said of that. */
export interface DecodedText {
  readonly text: string;
  readonly notes: readonly string[];
}

/** UTF-8; files of old archives are read as Latin-1 where they are not valid UTF-8, with a note. */
export async function readText(path: string, name: string): Promise<DecodedText> {
  try {
    const bytes = await readFile(path);
    try {
      return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), notes: [] };
    } catch (error) {
      // Not UTF-8, or longer than a string can be.
      if (!(error instanceof TypeError)) throw error;
      const text = new TextDecoder("latin1").decode(bytes);
      return { text, notes: ["the text is not UTF-8: it was read as Latin-1"] };
    }
  } catch (error) {
    throw notToBeHad(error, name);
  }
}

/** Enough to hold the comments before the first line of data. */
const headBytes = 65536;

/** The beginning of a file, one character a byte. */
export async function readHead(path: string, name: string): Promise<string> {
  try {
    const file = await open(path);
    try {
      const { bytesRead, buffer } = await file.read(Buffer.alloc(headBytes), 0, headBytes, 0);
      return buffer.toString("latin1", 0, bytesRead);
    } finally {
      await file.close();
    }
  } catch (error) {
    throw notToBeHad(error, name);
  }
}

export async function isFolder(path: string, name: string): Promise<boolean> {
  try {
    return (await stat(path)).isDirectory();
  } catch (error) {
    throw notToBeHad(error, name);
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
  ERR_FS_FILE_TOO_LARGE: "a file that is too long to be read whole",
  ERR_STRING_TOO_LONG: "a file that is too long to be read whole",
};

/** An error of the file system as bad input; anything else as it is. */
export function notToBeHad(error: unknown, file: string): unknown {
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
