#!/usr/bin/env node
// The command line: a thin layer on the library. Exit status 0 success, 2 bad input or usage, 3 a limit named with
// --fail-on was met.
import { setFlagsFromString } from "node:v8";
import { BadInput } from "../read/badInput.js";
import { software } from "../software.js";
import { plainLines } from "../words/plainText.js";
import type { Command } from "./commands/command.js";
import { helpText } from "./helpText.js";
import { UsageError } from "./usageError.js";

/** Each command is loaded when it is called. */
const commands: Readonly<Record<string, () => Promise<Command>>> = {
  assess: async () => (await import("./commands/assess.js")).assess,
  correct: async () => (await import("./commands/correct.js")).correct,
  check: async () => (await import("./commands/check.js")).check,
  dilute: async () => (await import("./commands/dilute.js")).dilute,
  history: async () => (await import("./commands/history.js")).history,
  watch: async () => (await import("./commands/watch.js")).watch,
  simulate: async () => (await import("./commands/simulate.js")).simulate,
};

const help = (
  all: readonly Command[],
) => `foulcast ${software.version}: is the conductivity cell fouled, and what to do about it

Usage: foulcast <command> [options]

${all.map(({ name, summary }) => `  ${name.padEnd(10)} ${summary}`).join("\n")}

foulcast <command> --help lists the options of a command.
Exit status: 0 success, 2 bad input or usage, 3 a limit named with --fail-on was met.
`;

/**
 * A function is optimised once it has run this much, in bytes of bytecode: three times V8's default. Most commands end within
 * a second or two, before optimised code has repaid the time of the compiler (docs/speed.md).
 */
setFlagsFromString("--interrupt-budget=400000");

async function main(words: readonly string[]): Promise<number> {
  const [name, ...rest] = words;
  if (name === undefined || name === "--help" || name === "-h" || name === "help") {
    const all = await Promise.all(Object.values(commands).map((load) => load()));
    process.stdout.write(helpText(help(all)));
    return name === undefined ? 2 : 0;
  }
  if (name === "--version") {
    process.stdout.write(`${software.version}\n`);
    return 0;
  }
  if (!Object.hasOwn(commands, name)) throw new UsageError(`no command ${name}`);
  const command = await commands[name]!();
  if (rest.includes("--help") || rest.includes("-h")) {
    process.stdout.write(helpText(command.help));
    return 0;
  }
  return command.run(rest);
}

// A reader that closes the pipe early, such as `head`, is not an error.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  process.exit(error.code === "EPIPE" ? 0 : 2);
});

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  if (error instanceof BadInput) {
    process.stderr.write(`${plainLines(error.message)}\n`);
  } else if (error instanceof UsageError) {
    process.stderr.write(`${plainLines(error.message)}\nfoulcast --help lists the commands.\n`);
  } else {
    throw error;
  }
  process.exitCode = 2;
}
