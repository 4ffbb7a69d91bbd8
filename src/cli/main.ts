#!/usr/bin/env node
// The command line: a thin face on the library. Exit status 0 it was done, 2 bad input or usage,
// 3 a limit named with --fail-on was met.
import { BadInput } from "../read/badInput.js";
import { software } from "../software.js";
import { plainLines } from "../words/plainText.js";
import { assess } from "./commands/assess.js";
import { check } from "./commands/check.js";
import type { Command } from "./commands/command.js";
import { correct } from "./commands/correct.js";
import { dilute } from "./commands/dilute.js";
import { history } from "./commands/history.js";
import { simulate } from "./commands/simulate.js";
import { UsageError } from "./usageError.js";

const commands: readonly Command[] = [assess, correct, check, dilute, history, simulate];

const help = `foulcast ${software.version}: is the conductivity cell fouled, and what to do about it

Usage: foulcast <command> [options]

${commands.map(({ name, summary }) => `  ${name.padEnd(10)} ${summary}`).join("\n")}

foulcast <command> --help tells the options of a command.
Exit status: 0 it was done, 2 bad input or usage, 3 a limit named with --fail-on was met.
`;

async function main(words: readonly string[]): Promise<number> {
  const [name, ...rest] = words;
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    process.stdout.write(help);
    return name === undefined ? 2 : 0;
  }
  if (name === "--version") {
    process.stdout.write(`${software.version}\n`);
    return 0;
  }
  const command = commands.find((known) => known.name === name);
  if (command === undefined) throw new UsageError(`no command ${name}`);
  if (rest.includes("--help") || rest.includes("-h")) {
    process.stdout.write(command.help);
    return 0;
  }
  return command.run(rest);
}

// A reader that closes the pipe early, as `head` does, is no fault.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  process.exit(error.code === "EPIPE" ? 0 : 2);
});

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  if (error instanceof BadInput) {
    process.stderr.write(`${plainLines(error.message)}\n`);
  } else if (error instanceof UsageError) {
    process.stderr.write(`${plainLines(error.message)}\nfoulcast --help tells what there is.\n`);
  } else {
    throw error;
  }
  process.exitCode = 2;
}
