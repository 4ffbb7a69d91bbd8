import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import * as core from "../../src/index.js";
import * as node from "../../src/node/index.js";
import * as seawater from "../../src/seawater/index.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const read = (path: string) => readFileSync(join(root, path), "utf8");
const pages = [
  "README.md",
  ...readdirSync(join(root, "docs")).map((file) => `docs/${file}`),
].filter((path) => path.endsWith(".md") && existsSync(join(root, path)));

/** Names that an index file re-exports, types too, and those of index files that it passes on whole. */
function exportsOf(path: string): readonly string[] {
  const text = read(path).replaceAll(/\/\/.*$/gm, "");
  const named = [...text.matchAll(/export (?:type )?\{([^}]*)\}/g)].flatMap(([, names]) =>
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
  const whole = [...text.matchAll(/export \* from "([^"]+)"/g)].flatMap(([, from]) =>
    exportsOf(join(dirname(path), from!.replace(/\.js$/, ".ts"))),
  );
  return [...named, ...whole];
}

const faces = [
  ["src/index.ts", core],
  ["src/node/index.ts", node],
  ["src/seawater/index.ts", seawater],
] as const;

describe("what the package exports", () => {
  for (const [path, module] of faces) {
    const names = exportsOf(path);

    it(`${path}: every function and constant is among the names read from it`, () => {
      expect(Object.keys(module).filter((name) => !names.includes(name))).toEqual([]);
    });

    it(`${path}: every name stands in docs/api.md, as code`, () => {
      const text = read("docs/api.md");
      const code = [...text.matchAll(/`([^`]+)`/g)].flatMap(([, inside]) => inside!.match(/\w+/g)!);
      expect(names.filter((name) => !code.includes(name))).toEqual([]);
    });
  }

  it("docs/api.md names nothing that is not exported", () => {
    const known = new Set(faces.flatMap(([path]) => exportsOf(path)));
    const called = [...read("docs/api.md").matchAll(/`(\w+)(?:\([^`]*\))?`/g)].map(
      ([, name]) => name!,
    );
    const plain = ["foulcast", "Float64Array", "Column"];
    expect(called.filter((name) => !known.has(name) && !plain.includes(name))).toEqual([]);
  });
});

describe("the pages", () => {
  it("every relative link and every page that is named leads to a file that is there", () => {
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
