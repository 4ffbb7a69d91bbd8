import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { temporaryFolder } from "../temporaryFolder.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = temporaryFolder("bundle");
const script = join(root, "scripts/bundleCommandLine.mjs");
/** Files of the bundle that a file of it names in imports that are not put off, itself included. */
function loadedBy(file: string, seen = new Set<string>()): ReadonlySet<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  const text = readFileSync(join(folder, file), "utf8");
  for (const [, other] of text.matchAll(/^(?:import|\} from) "\.\/([^"]+)";$/gm)) {
    loadedBy(other!, seen);
  }
  return seen;
}

beforeAll(() => {
  const { status, stderr } = spawnSync(process.execPath, [script, folder], { encoding: "utf8" });
  expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
});

describe("the bundled command line", () => {
  it("the version is printed with under 100 kB loaded, none of it the code of verdicts", () => {
    const files = loadedBy("main.js");
    const bytes = [...files].reduce((sum, f) => sum + readFileSync(join(folder, f)).length, 0);
    // A tenth of the whole would be a command's worth (judgement).
    expect(bytes).toBeLessThan(100_000);
    expect(files.size).toBeGreaterThan(1);
    expect([...files].filter((file) => file.startsWith("assess"))).toEqual([]);
  });

  it("the command line reads a cast without loading the schema library", () => {
    const assess = readdirSync(folder).find((file) => file.startsWith("assess"))!;
    const files = [...loadedBy(assess)];
    expect(files.length).toBeGreaterThan(3);
    expect(files.filter((f) => readFileSync(join(folder, f), "utf8").includes("ZodType"))).toEqual(
      [],
    );
  });

  it("the bundled command line contains the licence of each bundled package", () => {
    const bundled = new Set<string>();
    for (const file of readdirSync(folder)) {
      const text = readFileSync(join(folder, file), "utf8");
      for (const [, name] of text.matchAll(/^\/\/ \S*node_modules\/((?:@[^/]+\/)?[^/]+)\//gm)) {
        bundled.add(name!);
      }
    }
    expect([...bundled]).toContain("zod");
    const notices = readFileSync(join(folder, "NOTICES.txt"), "utf8");
    for (const name of bundled) {
      expect(notices).toMatch(new RegExp(`^${name} \\d+\\.\\d+\\.\\d+\\n\\n[^]{200}`, "m"));
    }
  });
});
