// A file of ours is there whole or not at all, whenever the process that writes it ends.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { randomStream } from "../../src/simulate/index.js";

const seed = 20310509;
const kills = 25;
let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "foulcast-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Writes a text of one letter over and over, then of the other, until it is killed. */
const writer = (module: string, path: string) => `
  import { writeAtomically } from ${JSON.stringify(module)};
  process.stdout.write("begun");
  for (let k = 0; ; k++) await writeAtomically(${JSON.stringify(path)}, (k % 2 ? "a" : "b").repeat(4e6));
`;

describe("a file that is written", () => {
  it(`is whole after each of ${kills} kills at random moments (seed ${seed})`, async () => {
    const path = join(folder, "own.txt");
    const script = join(folder, "writer.mjs");
    const module = pathToFileURL("build/cli-test/node/writeAtomically.js").href;
    writeFileSync(script, writer(module, path));
    writeFileSync(path, "a".repeat(4e6));
    const random = randomStream(seed);
    for (let k = 0; k < kills; k++) {
      const child = spawn(process.execPath, [script], { stdio: ["ignore", "pipe", "inherit"] });
      await new Promise((begun, failed) => {
        child.stdout.once("data", begun);
        child.once("exit", () => failed(new Error("the writer ended by itself")));
      });
      await new Promise((later) => setTimeout(later, 60 * random.uniform()));
      const gone = new Promise((ended) => child.once("exit", ended));
      child.kill("SIGKILL");
      await gone;
      const text = readFileSync(path, "utf8");
      expect(text.length).toBe(4e6);
      expect(text).toBe(text[0]!.repeat(4e6));
    }
  });
});
