// Changes the source at N places, one at a time, and sees whether a test notices: npm run mutate -- N [SEED] [FILE ...]
import { existsSync, readdirSync } from "node:fs";
import { dirname } from "node:path";
import { randomStream } from "../../src/simulate/random.js";
import { type Mutant, mutantsOf, mutated } from "./mutants.js";
import { type WorkCopy, workCopy } from "./workCopy.js";

const folders = ["model", "evidence", "causes", "track", "cleaning", "verdict"];
/** Seconds for the tests of the file's own folder, then for all others that depend on it: enough on a busy machine (judgement). */
const limits = { own: 600, others: 1200 };

const [count = 20, seed = 1] = process.argv.slice(2, 4).map(Number);
const only = process.argv.slice(4);
if (!(Number.isInteger(count) && count > 0 && Number.isSafeInteger(seed) && seed >= 0)) {
  console.error("npm run mutate -- N [SEED] [FILE ...]");
  process.exit(2);
}

const copy = workCopy(process.cwd());
process.on("exit", copy.remove);
for (const signal of ["SIGINT", "SIGTERM"] as const) process.on(signal, () => process.exit(1));

const files = only.length > 0 ? only : folders.flatMap(filesOf);
const all = files.flatMap((file) => mutantsOf(file, copy.text(file)));
const chosen = sample(all, count, seed);
console.log(`${chosen.length} of ${all.length} mutants, seed ${seed}`);
const sound = new Map<string, boolean>();
let killed = 0;
let judged = 0;
for (const mutant of chosen) {
  const { said, alive } = await judge(copy, mutant);
  if (alive !== undefined) judged++;
  if (alive === false) killed++;
  const { file, line, before, after } = mutant;
  console.log(`${said}  ${file}:${line}  ${oneLine(before)}  ->  ${oneLine(after)}`);
}
console.log(`killed ${killed} of ${judged}; ${chosen.length - judged} not judged`);

function filesOf(folder: string): readonly string[] {
  return readdirSync(`src/${folder}`, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .sort()
    .map((name) => `src/${folder}/${name}`);
}

/** Without replacement, the same for one seed and one tree. */
function sample(mutants: readonly Mutant[], size: number, from: number): readonly Mutant[] {
  const random = randomStream(from);
  return mutants
    .map((mutant) => ({ mutant, lot: random.uniform() }))
    .sort((a, b) => a.lot - b.lot)
    .slice(0, size)
    .map(({ mutant }) => mutant);
}

async function judge(
  tree: WorkCopy,
  mutant: Mutant,
): Promise<{ readonly said: string; readonly alive?: boolean }> {
  const { file } = mutant;
  const own = ownTests(file);
  const text = tree.text(file);
  if (!sound.has(own))
    sound.set(own, (await tree.testsOf(file, own, limits.own)).kind === "passed");
  // Tests that fail, or take too long, without any change show nothing.
  if (sound.get(own) === false) return { said: "not judged" };
  tree.write(file, mutated(text, mutant));
  try {
    const first = await tree.testsOf(file, own, limits.own);
    const last =
      first.kind === "passed" && own !== "tests"
        ? await tree.testsOf(file, "tests", limits.others)
        : first;
    if (last.kind === "failed") return { said: `killed by ${last.test}`, alive: false };
    return last.kind === "passed" ? { said: "SURVIVED", alive: true } : { said: "too slow" };
  } finally {
    tree.write(file, text);
  }
}

/** The folder of tests that is named as the file's folder, or as one above it; all tests where there is none. */
function ownTests(file: string): string {
  let folder = dirname(file).replace(/^src/, "tests");
  while (!existsSync(folder)) folder = dirname(folder);
  return folder;
}

function oneLine(text: string): string {
  const flat = text.replaceAll(/\s+/g, " ");
  return flat.length > 60 ? `${flat.slice(0, 57)}...` : flat;
}
