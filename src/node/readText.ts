// Text files, and what is said when one cannot be had.
import { readFile, stat } from "node:fs/promises";
import { BadInput } from "../read/badInput.js";

/** UTF-8; files of old archives in Latin-1 are read as that where they are not valid UTF-8. */
export async function readText(path: string, name: string): Promise<string> {
  const bytes = await readBytes(path, name);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}

async function readBytes(path: string, name: string): Promise<Uint8Array> {
  try {
    return await readFile(path);
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

/** A file system error as bad input; anything else as it is. */
export function notToBeHad(error: unknown, file: string): unknown {
  const code = error instanceof Error && "code" in error ? String(error.code) : undefined;
  const found = {
    ENOENT: "no such file",
    ENOTDIR: "no such file",
    EACCES: "a file that may not be read",
    EISDIR: "a folder",
  }[code ?? ""];
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
