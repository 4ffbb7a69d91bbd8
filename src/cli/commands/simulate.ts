// foulcast simulate: an invented cruise as a folder, with its truth beside it, for practice and tests.
import { mkdir, readdir } from "node:fs/promises";
import { join } from "node:path";
import { readText } from "../../node/readText.js";
import { writeAtomically } from "../../node/writeAtomically.js";
import { checkFields } from "../../simulate/checkFields.js";
import {
  cruiseFiles,
  randomScenario,
  type Scenario,
  simulateCruise,
} from "../../simulate/index.js";
import { oneArgument } from "../oneArgument.js";
import { UsageError } from "../usageError.js";
import type { Command } from "./command.js";

const help = `Usage: foulcast simulate <new folder> [options]

Writes an invented cruise: casts, bottles, maintenance, cruise.json. truth.csv has the true error of every cell, when
it began and why. All of it is simulated, and it says so.

  --seed N          whole number; the same seed gives the same cruise (1)
  --scenario FILE   a scenario as JSON instead of one drawn at random, as docs/simulation.md describes it
  --help            this text
`;

export const simulate: Command = {
  name: "simulate",
  summary: "write an invented cruise whose truth is known",
  help,
  async run(words) {
    const { values, path } = oneArgument(
      "simulate",
      words,
      { seed: { type: "string" }, scenario: { type: "string" } },
      "a folder to write",
      "one folder",
    );
    const seed = Number(values.seed ?? 1);
    if (!Number.isSafeInteger(seed) || seed < 0) {
      throw new UsageError(`--seed ${values.seed}: expected a whole number from 0`);
    }
    const scenario =
      values.scenario === undefined
        ? randomScenario(seed, "all")
        : await readScenario(values.scenario);
    const files = cruiseFiles(made(scenario));
    await newFolder(path);
    for (const [name, text] of files) await writeAtomically(join(path, name), text);
    process.stdout.write(
      `${files.size} files in ${path}: an invented cruise, its truth in truth.csv; assess it with\n` +
        `  foulcast assess ${path}\n`,
    );
    return 0;
  },
};

function made(scenario: Scenario) {
  try {
    return simulateCruise(scenario);
  } catch (error) {
    // The reader of the file checks its fields; this is a single value.
    if (!(error instanceof RangeError)) throw error;
    throw new UsageError(
      `this scenario cannot be: ${error.message}; docs/simulation.md has what may stand in one`,
    );
  }
}

async function readScenario(file: string): Promise<Scenario> {
  const { text } = await readText(file, file);
  let given: unknown;
  try {
    given = JSON.parse(text);
  } catch (error) {
    throw new UsageError(`--scenario ${file}: expected JSON (${(error as Error).message})`);
  }
  return checkFields(given, file);
}

/** No existing file is overwritten. */
async function newFolder(path: string): Promise<void> {
  try {
    await mkdir(path, { recursive: true });
    if ((await readdir(path)).length === 0) return;
  } catch (error) {
    throw new UsageError(`${path}: cannot be made (${(error as Error).message})`);
  }
  throw new UsageError(`${path} already has files, which are left as they are. Name a new folder`);
}
