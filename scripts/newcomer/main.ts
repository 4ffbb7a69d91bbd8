// Plays the newcomer: a clone where nothing is set up, the commands of README as they stand, then the package in a second project
// and every recipe there. Prints each step with its seconds, and last what failed.
//
//   npm run newcomer                 in a bare Debian root, where debootstrap is and this is root; else in an empty folder
//   npm run newcomer -- --folder     in an empty folder
//   npm run newcomer -- --root DIR   in a Debian root that debootstrap has made before, which is changed
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { absent } from "../../tests/browser/chromium.js";
import {
  type Block,
  documentedBlocks,
  readmeCommands,
  runnable,
  titleOf,
} from "./documentedBlocks.js";
import { documentedPage } from "./documentedPage.js";
import { bareDebian, emptyFolder, type Place } from "./place.js";

const { values: asked } = parseArgs({
  options: { folder: { type: "boolean", default: false }, root: { type: "string" } },
});
const source = process.cwd();
const work = mkdtempSync(join(tmpdir(), "foulcast-newcomer-"));
const log = join(work, "log.txt");
const failed: string[] = [];

/** Does a step, and says how long it took and whether it worked. */
async function step(title: string, act: () => Promise<boolean> | boolean): Promise<boolean> {
  writeFileSync(log, "");
  const from = performance.now();
  let well: boolean;
  try {
    well = await act();
  } catch (error) {
    writeFileSync(log, String(error));
    well = false;
  }
  const seconds = ((performance.now() - from) / 1000).toFixed(1).padStart(7);
  console.log(`${seconds} s  ${well ? "works " : "FAILED"}  ${title}`);
  if (!well) {
    failed.push(title);
    console.log(readFileSync(log, "utf8").trimEnd().split("\n").slice(-25).join("\n"));
  }
  return well;
}

async function recipe(place: Place, block: Block, after: Block | undefined): Promise<void> {
  const project = join(place.outside, "project");
  if (block.place === "output") return;
  if (block.language === "html") {
    if (absent) console.log(`              left   ${titleOf(block)}: no Chromium on this machine`);
    else
      await step(
        titleOf(block),
        async () => (await documentedPage(block.code, project)).length === 0,
      );
    return;
  }
  const run = runnable(block);
  if (run === undefined) return;
  await step(titleOf(block), async () => {
    writeFileSync(join(project, run.file), run.text);
    const { status, stdout } = await place.run(run.command, `${place.inside}/project`, log);
    const wanted = after?.place === "output" ? after.code.trimEnd() : undefined;
    return status === 0 && (wanted === undefined || stdout.trimEnd() === wanted);
  });
}

async function play(): Promise<void> {
  const debootstrap = spawnSync("debootstrap", ["--version"]).status === 0;
  const root = process.getuid?.() === 0;
  let place!: Place;
  const bare = asked.root !== undefined || (!asked.folder && debootstrap && root);
  const made = await step(
    bare ? "a bare Debian root" : "an empty folder with an empty home",
    () => {
      place = bare
        ? bareDebian(asked.root ?? join(work, "root"), asked.root !== undefined)
        : emptyFolder(work);
      // What is committed, as a newcomer gets it.
      execFileSync("git", [
        "clone",
        "--quiet",
        "--bare",
        source,
        join(place.outside, "foulcast.git"),
      ]);
      return true;
    },
  );
  if (!made) return;
  const { inClone, pack, install } = readmeCommands(source);
  const at = (folder: string) => `${place.inside}/${folder}`;
  const command = (line: string, folder: string) =>
    step(line, async () => (await place.run(line, folder, log)).status === 0);
  if (!(await command(`git clone ${at("foulcast.git")} foulcast`, place.inside))) return;
  for (const line of inClone) await command(line, at("foulcast"));
  if (!(await command(pack, at("foulcast")))) return;
  const project = join(place.outside, "project");
  mkdirSync(project);
  writeFileSync(join(project, "package.json"), JSON.stringify({ type: "module", private: true }));
  if (!(await command(install.replace("<path>", at("foulcast")), at("project")))) return;
  const { devDependencies } = JSON.parse(readFileSync("package.json", "utf8"));
  const types = ["typescript", "@types/node"].map((name) => `${name}@${devDependencies[name]}`);
  await command(
    `npm install --save-dev ${types.map((name) => `'${name}'`).join(" ")}`,
    at("project"),
  );
  const blocks = documentedBlocks(source);
  for (const [i, block] of blocks.entries()) {
    if (block.place !== "") await recipe(place, block, blocks[i + 1]);
  }
}

try {
  await play();
} finally {
  if (existsSync(work)) rmSync(work, { recursive: true, force: true });
}
console.log(failed.length === 0 ? "everything works" : `failed: ${failed.join("; ")}`);
process.exitCode = failed.length === 0 ? 0 : 1;
