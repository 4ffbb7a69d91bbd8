// Every ts, js, sh and html block of README and docs is run as it stands, in the place that its first line names: a project
// with the package installed. A block marked "text output" is what the sh block before it prints.
import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import {
  type Block,
  documentedBlocks,
  readmeCommands,
  runnable,
  titleOf,
} from "../../scripts/newcomer/documentedBlocks.js";
import { documentedPage } from "../../scripts/newcomer/documentedPage.js";
import { absent, where } from "../browser/chromium.js";
import { elementsOf } from "../figures/elementsOf.js";
import { temporaryFolder } from "../temporaryFolder.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const blocks = documentedBlocks(root);
const written = (language: string) =>
  blocks
    .filter((block) => block.language === language)
    .map((block) => [titleOf(block), block] as const);

const project = temporaryFolder("project");

/** The package as `npm pack` gives it, beside the dependencies of this tree, which need no network. */
beforeAll(() => {
  execFileSync("npm", ["pack", "--silent", "--pack-destination", project], { cwd: root });
  const packed = readdirSync(project).find((name) => name.endsWith(".tgz"))!;
  const modules = join(project, "node_modules");
  mkdirSync(join(modules, ".bin"), { recursive: true });
  execFileSync("tar", ["-xzf", join(project, packed), "-C", modules]);
  execFileSync("mv", [join(modules, "package"), join(modules, "foulcast")]);
  for (const name of readdirSync(join(root, "node_modules"))) {
    if (!name.startsWith(".")) symlinkSync(join(root, "node_modules", name), join(modules, name));
  }
  const bin = join(modules, "foulcast/dist/bin/main.js");
  execFileSync("chmod", ["+x", bin]);
  symlinkSync(bin, join(modules, ".bin/foulcast"));
  writeFileSync(join(project, "package.json"), JSON.stringify({ type: "module", private: true }));
});

interface Printed {
  readonly stdout: string;
  readonly stderr: string;
}
const once = new Map<Block, Printed>();

/** What a block prints, and what it prints as an error; it runs once. */
function ran(block: Block): Printed {
  const before = once.get(block);
  if (before !== undefined) return before;
  const { NO_COLOR: _, FORCE_COLOR: __, ...env } = process.env;
  const { file, text, command } = runnable(block)!;
  writeFileSync(join(project, file), text);
  const run = spawnSync("bash", ["-c", command], { cwd: project, encoding: "utf8", env });
  expect(run.status, `${run.stdout}${run.stderr}`).toBe(0);
  once.set(block, run);
  return run;
}

describe("the code blocks of README and docs", () => {
  it("every code block names its language, and every block that runs names its place", () => {
    const other = blocks.filter(
      ({ language, place }) =>
        !(
          language === "text" ||
          (["ts", "js", "sh", "html"].includes(language) && place === "project")
        ),
    );
    expect(other.map(titleOf)).toEqual([]);
    for (const language of ["ts", "js", "sh", "html"]) expect(written(language)).not.toEqual([]);
  });

  it("README has the commands for a clone, and those that make and install the package", () => {
    const { inClone, pack, install } = readmeCommands(root);
    expect(inClone).toEqual(["npm ci && npm run demo", "npm ci && npm test"]);
    expect([pack, install]).toEqual(["npm pack", "npm install <path>/foulcast-0.17.0.tgz"]);
  });

  it.each(written("ts"))("%s: passes strict type checks and runs", (_, block) => {
    expect(ran(block).stdout).not.toBe("");
  });

  it.each(written("js"))("%s: the program runs without an error", (_, block) => {
    expect(ran(block).stderr).toBe("");
  });

  it("the recipes write well-formed figures and a report where docs/recipes.md says so", () => {
    const made = readdirSync(project);
    expect(made).toEqual(expect.arrayContaining(["gain.svg", "legs-008.svg", "report.html"]));
    for (const figure of ["gain.svg", "legs-008.svg"])
      elementsOf(readFileSync(join(project, figure), "utf8"));
  });

  const shown = blocks.flatMap((block, i) =>
    block.place === "output" ? [[titleOf(block), block, blocks[i - 1]!] as const] : [],
  );
  it.each(shown)(
    "%s: the output shown is what the command block before it prints",
    (_, { code, file }, before) => {
      expect(before).toMatchObject({ file, language: "sh" });
      expect(ran(before).stdout.trimEnd()).toBe(code.trimEnd());
    },
  );

  it.each(written("sh"))("%s: the commands run and print something", (_, block) => {
    expect(ran(block).stdout).not.toBe("");
  });

  it.skipIf(absent).each(written("html"))(
    `%s: the page opens in a browser without a console error${where}`,
    async (_, { code }) => {
      expect(await documentedPage(code, project)).toEqual([]);
    },
  );
});
