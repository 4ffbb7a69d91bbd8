// The possible files of a cruise, in their present state.
import { readdir, stat } from "node:fs/promises";
import { dirname, join, resolve, sep } from "node:path";

/** Options of assess whose files it writes: they are no news. */
const alwaysWritten = ["--report", "--markdown", "--json"];

/**
 * Size, time of change and place on the disk of each file in the folder and of each named file.
 * @param words arguments as for assess
 */
export async function filesSeen(words: readonly string[]): Promise<string> {
  // A history that is added to as well: else each assessment would lead to the next.
  const adds = words.includes("--add-to-history");
  const written = new Set(adds ? [...alwaysWritten, "--history"] : alwaysWritten);
  const ours: string[] = [];
  const named: string[] = [];
  for (const [i, word] of words.entries()) {
    const [, option, value] = /^(--[a-z-]+)=(.*)$/s.exec(word) ?? [];
    if (option !== undefined && written.has(option)) ours.push(resolve(value!));
    else if (written.has(words[i - 1] ?? "")) ours.push(resolve(word));
    else if (!word.startsWith("--") || value !== undefined) named.push(resolve(value ?? word));
  }
  const lines = new Set<string>();
  for (const path of named) {
    const folder = (await isFolder(path)) ? path : undefined;
    const files = folder === undefined ? [path] : await filesIn(folder);
    if (path.endsWith("cruise.json")) files.push(...(await filesIn(dirname(path))));
    for (const file of files) {
      if (ours.some((one) => isOf(one, file))) continue;
      const line = await lineOf(file);
      if (line !== undefined) lines.add(line);
    }
  }
  return [...lines].sort().join("\n");
}

/** Whether it is the file, in the folder, or what SQLite puts beside its file. */
function isOf(place: string, file: string): boolean {
  return file === place || file.startsWith(`${place}${sep}`) || file === `${place}-journal`;
}

async function filesIn(folder: string): Promise<string[]> {
  try {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true });
    return entries
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
      .filter((path) => !/[\\/]\.[^\\/]+([\\/]|$)/.test(path.slice(folder.length)));
  } catch {
    return [];
  }
}

async function isFolder(path: string): Promise<boolean> {
  return stat(path).then(
    (found) => found.isDirectory(),
    () => false,
  );
}

/** Undefined if it does not exist, or no longer. */
async function lineOf(path: string): Promise<string | undefined> {
  try {
    const { size, mtimeNs, ino } = await stat(path, { bigint: true });
    return [path, size, mtimeNs, ino].join(" ");
  } catch {
    return undefined;
  }
}
