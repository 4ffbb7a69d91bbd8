import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import * as cleaning from "../../src/cleaning.js";
import * as history from "../../src/history.js";
import * as core from "../../src/index.js";
import * as node from "../../src/node/index.js";
import * as seawater from "../../src/seawater/index.js";
import * as simulate from "../../src/simulate/index.js";
import * as steps from "../../src/steps.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const read = (path: string) => readFileSync(join(root, path), "utf8");
const pages = [
  "README.md",
  ...readdirSync(join(root, "docs")).map((file) => `docs/${file}`),
].filter((path) => path.endsWith(".md") && existsSync(join(root, path)));

/** Names that an index file exports, types too. */
function exportsOf(path: string): readonly string[] {
  const text = read(path).replaceAll(/\/\/.*$/gm, "");
  expect(text).not.toMatch(/export \*/);
  return [...text.matchAll(/export (?:type )?\{([^}]*)\}/g)].flatMap(([, names]) =>
    names!
      .split(",")
      .map((name) =>
        name
          .trim()
          .replace(/^type /, "")
          .replace(/^.* as /, ""),
      )
      .filter((name) => name !== ""),
  );
}

const faces = [
  ["foulcast", "src/index.ts", core],
  ["foulcast/cleaning", "src/cleaning.ts", cleaning],
  ["foulcast/history", "src/history.ts", history],
  ["foulcast/node", "src/node/index.ts", node],
  ["foulcast/seawater", "src/seawater/index.ts", seawater],
  ["foulcast/simulate", "src/simulate/index.ts", simulate],
  ["foulcast/steps", "src/steps.ts", steps],
] as const;

/** The part of docs/api.md under the heading of one path. */
function sectionOf(face: string): string {
  const found = read("docs/api.md")
    .split(/^## /m)
    .filter((part) => part.startsWith(`\`${face}\``));
  expect(found).toHaveLength(1);
  return found[0]!;
}

describe("what the package exports", () => {
  it("package.json exports exactly the documented paths, each with types before code", () => {
    const { exports } = JSON.parse(read("package.json")) as {
      readonly exports: Readonly<Record<string, string | Readonly<Record<string, string>>>>;
    };
    const wanted = Object.fromEntries(
      faces.map(([face, path]) => {
        const made = path.replace(/^src/, "./dist").replace(/\.ts$/, "");
        return [
          face.replace("foulcast", "."),
          [
            ["types", `${made}.d.ts`],
            ["default", `${made}.js`],
          ],
        ];
      }),
    );
    const { "./package.json": _, ...paths } = exports;
    const found = Object.entries(paths).map(([path, to]) => [path, Object.entries(to)]);
    expect(Object.fromEntries(found)).toEqual(wanted);
  });

  it("the main export path has at most 90 names", () => {
    expect(exportsOf("src/index.ts").length).toBeLessThanOrEqual(90);
  });

  for (const [face, path, module] of faces) {
    it(`${face}: every function and constant is among the names read from ${path}`, () => {
      const names = exportsOf(path);
      expect(Object.keys(module).filter((name) => !names.includes(name))).toEqual([]);
    });

    it(`${face}: its part of docs/api.md has every exported name, as code`, () => {
      const code = [...sectionOf(face).matchAll(/`([^`]+)`/g)].flatMap(
        ([, inside]) => inside!.match(/\w+/g)!,
      );
      expect(exportsOf(path).filter((name) => !code.includes(name))).toEqual([]);
    });

    it(`${face}: its part of docs/api.md names nothing that it does not export`, () => {
      const names = exportsOf(path);
      const called = [...sectionOf(face).matchAll(/`(\w+)(?:\([^`]*\))?`/g)].map(
        ([, name]) => name!,
      );
      const plain = ["foulcast", "Column"];
      expect(called.filter((name) => !names.includes(name) && !plain.includes(name))).toEqual([]);
    });
  }
});

describe("the pages", () => {
  it("every relative link and every named page leads to an existing file", () => {
    const missing = pages.flatMap((page) => {
      const text = read(page);
      const links = [...text.matchAll(/\]\((?!https?:|mailto:|#)([^)#\s]+)/g)].map(([, to]) =>
        join(dirname(page), to!),
      );
      const named = [
        ...text.matchAll(/(?<![\w/.-])(?:docs|src|tests|fixtures|scripts)\/[\w./-]*\w/g),
      ].map(([path]) => path);
      return [...links, ...named]
        .filter((path) => !path.includes("node_modules"))
        .filter((path) => !existsSync(join(root, path)))
        .map((path) => `${page}: ${path}`);
    });
    expect(missing).toEqual([]);
  });
});
