// The code blocks of README and docs, and the commands that README names: read from the pages, so that nothing is copied.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

export interface Block {
  readonly file: string;
  readonly line: number;
  readonly language: string;
  /** Where it runs: "project" is one with the package installed; "output" is what the block before it prints. */
  readonly place: string;
  readonly code: string;
}

/** @param root folder of the source tree */
export function documentedBlocks(root: string): readonly Block[] {
  const documents = [
    "README.md",
    ...readdirSync(join(root, "docs"))
      .filter((name) => name.endsWith(".md"))
      .map((name) => `docs/${name}`),
  ];
  return documents.flatMap((file) => {
    const text = readFileSync(join(root, file), "utf8");
    return [...text.matchAll(/^```(\w*) ?(.*)\n([\s\S]*?)^```$/gm)].map(
      ([, language, place, code], i, all): Block => ({
        file,
        line: text.slice(0, all[i]!.index).split("\n").length,
        language: language!,
        place: place!,
        code: code!,
      }),
    );
  });
}

export const titleOf = ({ file, line, language }: Block) => `${language}, ${file} line ${line}`;

/** Strict TypeScript, as a careful project has it. */
const strict = [
  "--strict --exactOptionalPropertyTypes --noUncheckedIndexedAccess",
  "--target es2022 --module nodenext --types node",
].join(" ");

/** The file that a block becomes in a project, and the command for bash that runs it there; undefined for a page. */
export function runnable({
  language,
  code,
}: Block): { readonly file: string; readonly text: string; readonly command: string } | undefined {
  if (language === "sh") return { file: "block.sh", text: code, command: "bash -eu block.sh" };
  if (language === "js") return { file: "block.mjs", text: code, command: "node block.mjs" };
  if (language !== "ts") return undefined;
  const compile = `node node_modules/typescript/bin/tsc ${strict} block.ts`;
  return { file: "block.ts", text: code, command: `${compile} && node block.js` };
}

/** The commands that README gives for a clone, as they stand, and those that make and install the package. */
export function readmeCommands(root: string): {
  readonly inClone: readonly string[];
  readonly pack: string;
  /** With `<path>` for the folder of the package. */
  readonly install: string;
} {
  const text = readFileSync(join(root, "README.md"), "utf8");
  const inline = (pattern: RegExp) => {
    const found = pattern.exec(text)?.[1];
    if (found === undefined) throw new Error(`README.md has no command like ${pattern}`);
    return found;
  };
  return {
    inClone: [...text.matchAll(/^ {4}(npm .*)$/gm)].map(([, command]) => command!),
    pack: inline(/`(npm pack)`/),
    install: inline(/`(npm install <path>[^`]*)`/),
  };
}
