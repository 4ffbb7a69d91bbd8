// Help texts as a terminal shows them: lines that are too long go on below, under the words of their option.
import { wrap } from "../report/terminal/wrap.js";

/** Columns of a usual terminal. */
const width = 80;

/** The text with every paragraph and every option within 80 columns. */
export function helpText(help: string): string {
  return `${joined(help.trimEnd().split("\n")).map(within).join("\n")}\n`;
}

/** The lines with their continuations: prose goes on at the margin, an option far to the right. */
function joined(lines: readonly string[]): readonly string[] {
  const all: string[] = [];
  for (const line of lines) {
    const before = all.at(-1) ?? "";
    const goesOn = isProse(line)
      ? isProse(before) && !before.endsWith(":")
      : /^ {10}/.test(line) && hangingOf(before) > 0;
    if (goesOn) all.push(`${all.pop()!} ${line.trim()}`);
    else all.push(line);
  }
  return all;
}

const isProse = (line: string) => /^\S/.test(line) && !line.startsWith("Usage:");

/** Column of the words of an option; 0 for another line. */
function hangingOf(line: string): number {
  const found = /^ {2}\S.*? {2,}(?=\S)/.exec(line);
  return found === null ? 0 : found[0].length;
}

function within(line: string): string {
  if (line.length <= width) return line;
  const margin = line.startsWith("Usage:") ? 7 : line.search(/\S/);
  const hanging = hangingOf(line) || margin;
  const indent = " ".repeat(hanging);
  return `${line.slice(0, hanging)}${wrap(line.slice(hanging), width - hanging, indent)}`;
}
