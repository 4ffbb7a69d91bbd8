// A copy of the tree to change and to test, so that the tree itself stays as it is.
import { spawn } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const parts = ["src", "tests", "scripts", "fixtures", "docs"];
const settings = ["package.json", "tsconfig.json", "tsconfig.build.json", "tsconfig.scripts.json"];

/** Tests of the tree itself read the text of the sources, not what they do; browser, commands and slow tests take too long. */
const config = `export default {
  test: {
    include: [process.env.MUTATE_TESTS + "/**/*.test.ts"],
    exclude: ["tests/{project,browser,cli}/**", "**/*.slow.test.ts"],
    testTimeout: 60_000,
    maxWorkers: 1,
  },
};
`;

export type Outcome =
  | { readonly kind: "passed" | "too slow" }
  /** With the first test that failed. */
  | { readonly kind: "failed"; readonly test: string };

export interface WorkCopy {
  readonly text: (file: string) => string;
  readonly write: (file: string, text: string) => void;
  /** Runs those tests below `folder` that depend on the file; passes where there is none. */
  readonly testsOf: (file: string, folder: string, seconds: number) => Promise<Outcome>;
  readonly remove: () => void;
}

export function workCopy(root: string): WorkCopy {
  const copy = mkdtempSync(join(tmpdir(), "foulcast-mutate-"));
  for (const part of [...parts, ...settings])
    cpSync(join(root, part), join(copy, part), { recursive: true });
  symlinkSync(resolve(root, "node_modules"), join(copy, "node_modules"));
  writeFileSync(join(copy, "vitest.config.ts"), config);
  return {
    text: (file) => readFileSync(join(copy, file), "utf8"),
    write: (file, text) => writeFileSync(join(copy, file), text),
    testsOf: (file, folder, seconds) => related(copy, file, folder, seconds),
    remove: () => {
      endRunning();
      rmSync(copy, { recursive: true, force: true });
    },
  };
}

/** Ends the tests that run now; nothing where none do. */
let endRunning = () => {};

const vitest = "node_modules/vitest/vitest.mjs";
const options = ["related", "--run", "--bail", "1", "--passWithNoTests", "--no-color"];

function related(copy: string, file: string, folder: string, seconds: number): Promise<Outcome> {
  return new Promise((resolved) => {
    // A group of its own: a mutant that loops for ever is ended with the workers it runs in.
    const child = spawn(process.execPath, [vitest, ...options, file], {
      cwd: copy,
      detached: true,
      env: { ...process.env, MUTATE_TESTS: folder },
    });
    endRunning = () => process.kill(-child.pid!, "SIGKILL");
    let said = "";
    let late = false;
    const hear = (piece: Buffer) => {
      said += piece.toString();
    };
    child.stdout.on("data", hear);
    child.stderr.on("data", hear);
    const clock = setTimeout(() => {
      late = true;
      endRunning();
    }, 1000 * seconds);
    child.on("close", (status) => {
      clearTimeout(clock);
      endRunning = () => {};
      if (late) resolved({ kind: "too slow" });
      else if (status === 0) resolved({ kind: "passed" });
      else resolved({ kind: "failed", test: /FAIL +(.*)/.exec(said)?.[1] ?? "no test ran" });
    });
  });
}
