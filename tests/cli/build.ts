// Builds the library and the command line for the slow tests.
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

/**
 * Vitest calls this once, before the first test file. Files that built it themselves, at the same time as others ran it, gave
 * those others modules half written. Types are checked elsewhere.
 */
export default function build(): void {
  const compiler = "node_modules/typescript/bin/tsc";
  node(compiler, "-p", "tsconfig.build.json", "--outDir", "build/cli-test", "--noCheck");
  node("scripts/bundleCommandLine.mjs", "build/cli-test/bin");
}

function node(...words: readonly string[]): void {
  const { status, stdout, stderr } = spawnSync(process.execPath, words, {
    cwd: root,
    encoding: "utf8",
  });
  if (status !== 0) throw new Error(`the command line cannot be built:\n${stdout}${stderr}`);
}
