// foulcast watch: assess a cruise again whenever one of its files changes.
import { spawn } from "node:child_process";
import { once } from "node:events";
import { setTimeout as sleep } from "node:timers/promises";
import { BadInput } from "../../read/badInput.js";
import { plainLines } from "../../words/plainText.js";
import { UsageError } from "../usageError.js";
import { filesSeen } from "../watchedFiles.js";
import { assess } from "./assess.js";
import type { Command } from "./command.js";

const help = `Usage: foulcast watch <cruise folder | cruise.json | cast.csv> [options]

Assesses the cruise whenever a cast, bottles or a maintenance entry is added, and prints three lines each time.
It runs until it is stopped with Ctrl-C.

  --every SECONDS       how often to look at the files, 0.2 to 3600 (2)
  --ring                ring the terminal's bell if a limit of --fail-on is met
  --run COMMAND         run this command if a limit is met
  --help                this text

All options of foulcast assess can be used too: --report and --json write their files again each time.
foulcast waits for a file that is still being copied, until it no longer changes.
`;

/** Exit status of assess if a limit was met. */
const limitMet = 3;

export const watch: Command = {
  name: "watch",
  summary: "assess again whenever a cast, bottles or a maintenance entry is added",
  help,
  async run(words) {
    const { own, others } = parted(words);
    const every_ms = 1000 * everyFrom(own.every);
    const detail = others.some((word) => word === "--brief" || word === "--full");
    const asked = detail ? others : [...others, "--brief"];
    const stop = new AbortController();
    for (const signal of ["SIGINT", "SIGTERM"] as const) {
      process.once(signal, () => stop.abort());
    }
    let assessed: string | undefined;
    let before: string | undefined;
    while (!stop.signal.aborted) {
      const seen = await filesSeen(others);
      if (seen === before && seen !== assessed) {
        assessed = seen;
        const met = await assessOnce(asked);
        if (met && own.ring) process.stderr.write("\u0007");
        if (met && own.run !== undefined) await runCommand(own.run);
      }
      before = seen;
      // The program waits for a duration, so a change of the clock has no effect.
      await sleep(every_ms, undefined, { signal: stop.signal }).catch(() => {});
    }
    return 0;
  },
};

/** @returns whether a limit was met; unusable input is reported, and the program waits for a change */
async function assessOnce(words: readonly string[]): Promise<boolean> {
  try {
    return (await assess.run(words)) === limitMet;
  } catch (error) {
    if (!(error instanceof BadInput)) throw error;
    process.stderr.write(`${plainLines(error.message)}\n`);
    return false;
  }
}

async function runCommand(command: string): Promise<void> {
  const [status] = await once(spawn(command, { shell: true, stdio: "inherit" }), "close");
  if (status !== 0) process.stderr.write(`--run: the command ended with status ${status}\n`);
}

interface OwnOptions {
  readonly every?: string;
  readonly run?: string;
  readonly ring: boolean;
}

/** The options of watch, and those of assess. */
function parted(words: readonly string[]): {
  readonly own: OwnOptions;
  readonly others: readonly string[];
} {
  const others: string[] = [];
  const own: { every?: string; run?: string; ring: boolean } = { ring: false };
  for (let i = 0; i < words.length; i++) {
    const [, name, given] = /^--(every|run|ring)(?:=(.*))?$/s.exec(words[i]!) ?? [];
    if (name === undefined) {
      others.push(words[i]!);
    } else if (name === "ring") {
      own.ring = true;
    } else {
      const value = given ?? words[++i];
      if (value === undefined) throw new UsageError(`--${name}: expected a value`);
      own[name as "every" | "run"] = value;
    }
  }
  return { own, others };
}

function everyFrom(text = "2"): number {
  const seconds = Number(text);
  if (seconds >= 0.2 && seconds <= 3600) return seconds;
  throw new UsageError(`--every ${text}: expected seconds from 0.2 to 3600`);
}
