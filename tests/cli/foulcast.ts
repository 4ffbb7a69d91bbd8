// The command line as its users have it: bundled, and run as a process of its own.
import { spawn, spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
/** Built by build.ts before any slow test begins. */
export const main = `${root}build/cli-test/bin/main.js`;

export interface Run {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/**
 * Run it with these words, both streams being pipes.
 * @param more  variables of the environment
 * @param input what stands on standard input
 */
export function foulcast(
  words: readonly string[],
  more: Readonly<Record<string, string>> = {},
  input = "",
): Run {
  const { NO_COLOR: _, FORCE_COLOR: __, ...environment } = process.env;
  const { status, stdout, stderr } = spawnSync(process.execPath, [main, ...words], {
    cwd: root,
    encoding: "utf8",
    input,
    // Newer Nodes keep what they compiled, which spares each of many processes doing it again.
    env: { ...environment, NODE_COMPILE_CACHE: `${root}build/cli-test-cache`, ...more },
    maxBuffer: 64e6,
  });
  return { status, stdout, stderr };
}

/** Run it with a reader that goes away after the first piece, as `head` does. */
export function foulcastCutShort(words: readonly string[]): Promise<Run> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [main, ...words], { cwd: root });
    let stdout = "";
    let stderr = "";
    child.stdout.once("data", (piece: Buffer) => {
      stdout = piece.toString();
      child.stdout.destroy();
    });
    child.stderr.on("data", (piece: Buffer) => {
      stderr += piece.toString();
    });
    child.on("close", (status) => resolve({ status, stdout, stderr }));
  });
}
