// The example of docs/figures.md, run as it stands there, against the compiled package.

import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, expect, it } from "vitest";
import { build } from "../cli/build.js";
import { temporaryFolder } from "../temporaryFolder.js";
import { elementsOf } from "./elementsOf.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = temporaryFolder("docs");

beforeAll(build, 120_000);

it("the example of docs/figures.md goes from files to figures and a report", () => {
  const page = readFileSync(join(root, "docs/figures.md"), "utf8");
  const example = /```js[^\n]*\n([\s\S]*?)```/.exec(page)![1]!;
  // The package by its own name, as a user has it, out of what was just compiled.
  const compiled = new URL("../../build/cli-test/", import.meta.url).href;
  const runnable = example
    .replaceAll('from "foulcast"', `from "${compiled}index.js"`)
    .replaceAll('from "foulcast/node"', `from "${compiled}node/index.js"`)
    .replaceAll("node_modules/foulcast/fixtures", "fixtures");
  expect(runnable).not.toContain('"foulcast');
  writeFileSync(join(folder, "example.mjs"), runnable);
  symlinkSync(join(root, "fixtures"), join(folder, "fixtures"));
  const { status, stderr } = spawnSync(process.execPath, ["example.mjs"], {
    cwd: folder,
    encoding: "utf8",
  });
  expect(stderr).toBe("");
  expect(status).toBe(0);
  const made = readdirSync(folder);
  expect(made).toEqual(expect.arrayContaining(["gain.svg", "legs-008.svg", "report.html"]));
  for (const figure of ["gain.svg", "legs-008.svg"]) {
    elementsOf(readFileSync(join(folder, figure), "utf8"));
  }
});
