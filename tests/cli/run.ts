// A command run in this process, with what it wrote.
import { vi } from "vitest";
import type { Command } from "../../src/cli/commands/command.js";

export async function run(command: Command, words: readonly string[]) {
  const written = { out: "", err: "" };
  const out = vi.spyOn(process.stdout, "write").mockImplementation((text) => {
    written.out += String(text);
    return true;
  });
  const err = vi.spyOn(process.stderr, "write").mockImplementation((text) => {
    written.err += String(text);
    return true;
  });
  try {
    return { status: await command.run(words), ...written };
  } finally {
    out.mockRestore();
    err.mockRestore();
  }
}

/** Text without its line breaks and indents. */
export function flat(text: string): string {
  return text.replace(/\s+/g, " ");
}
