import { readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { Command } from "../../src/cli/commands/command.js";
import { helpText } from "../../src/cli/helpText.js";

const folder = fileURLToPath(new URL("../../src/cli/commands", import.meta.url));
const names = readdirSync(folder)
  .map((file) => file.replace(/\.ts$/, ""))
  .filter((name) => name !== "command");
const words = (text: string) => text.split(/\s+/).filter((word) => word !== "");

describe("the help of a command", () => {
  it.each(names)(
    "%s fits 80 columns, and has every word of its text in the same order",
    async (name) => {
      const all = Object.values(await import(`../../src/cli/commands/${name}.ts`));
      const commands = all.filter(
        (one): one is Command => typeof one === "object" && "help" in (one as object),
      );
      for (const { help } of commands) {
        const shown = helpText(help);
        expect(shown.split("\n").filter((line) => line.length > 80)).toEqual([]);
        expect(words(shown)).toEqual(words(help));
      }
    },
  );

  it("goes on under the words of its option, where those do not fit", () => {
    const far = "word ".repeat(20).trim();
    const [first, second] = helpText(`  --cores N   ${far}\n`).split("\n");
    expect(first).toMatch(/^ {2}--cores N {3}word/);
    expect(second).toMatch(/^ {14}word/);
  });
});
