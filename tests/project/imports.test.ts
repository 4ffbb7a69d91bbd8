import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../src", import.meta.url));
const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((f) =>
  f.endsWith(".ts"),
);

/** Layers, lowest first. A folder may import from itself and from layers below it, types included. */
const layers = [
  ["seawater", "statistics"],
  ["cast"],
  ["model", "read", "health"],
  ["response"],
  ["evidence"],
  ["causes"],
  ["track"],
  ["cleaning"],
  ["history"],
  ["verdict"],
  ["words", "simulate"],
  ["figures"],
  ["report", "write"],
  ["node"],
  ["cli"],
];

interface Import {
  readonly from: string;
  readonly to: string;
}

const imports: readonly Import[] = files.flatMap((file) => {
  const text = readFileSync(join(root, file), "utf8");
  const found = text.matchAll(/^(?:import|export)(?: type)? [^;]*?from "([^"]+)"/gms);
  return [...found].map(([, to]) => ({
    from: file,
    to: to!.startsWith(".")
      ? relative(root, resolve(root, dirname(file), to!)).replace(/\.js$/, ".ts")
      : to!,
  }));
});
const inside = imports.filter(({ to }) => files.includes(to));
const folder = (path: string) => (path.includes("/") ? path.split("/")[0]! : "");
const rank = (path: string) => layers.findIndex((layer) => layer.includes(folder(path)));
const written = ({ from, to }: Import) => `${from} -> ${to}`;

/** Circles among nodes, each as the names along it. */
function circles(edges: readonly Import[]): readonly string[] {
  const next = new Map<string, Set<string>>();
  for (const { from, to } of edges) {
    if (from !== to) next.set(from, (next.get(from) ?? new Set()).add(to));
  }
  const found: string[] = [];
  const done = new Set<string>();
  const walk = (node: string, path: readonly string[]) => {
    if (path.includes(node)) {
      found.push([...path.slice(path.indexOf(node)), node].join(" -> "));
      return;
    }
    if (done.has(node)) return;
    for (const other of next.get(node) ?? []) walk(other, [...path, node]);
    done.add(node);
  };
  for (const node of next.keys()) walk(node, []);
  return found;
}

describe("the tree", () => {
  it("only the folders node and cli use the file system, so that the core runs in a browser", () => {
    const outside = imports.filter(
      ({ from, to }) => to.startsWith("node:") && !["node", "cli"].includes(folder(from)),
    );
    expect(outside).toEqual([]);
  });

  it("the core imports csv-parse only in its browser build, which needs no Buffer", () => {
    const csv = imports.filter(
      ({ from, to }) => to.startsWith("csv-parse") && !["node", "cli"].includes(folder(from)),
    );
    expect(csv.filter(({ to }) => to !== "csv-parse/browser/esm/sync")).toEqual([]);
  });

  it("every folder of the source has a layer", () => {
    const known = layers.flat();
    const folders = new Set(files.map(folder).filter((name) => name !== ""));
    expect([...folders].filter((name) => !known.includes(name))).toEqual([]);
  });

  it("imports between folders go only from higher to lower layers, types included", () => {
    const against = inside.filter(
      ({ from, to }) =>
        folder(from) !== folder(to) && folder(from) !== "" && rank(to) >= rank(from),
    );
    expect(against.map(written)).toEqual([]);
  });

  it("no folder imports itself through other folders", () => {
    const between = inside.map(({ from, to }) => ({ from: dirname(from), to: dirname(to) }));
    // A folder and the folders in it are one idea: only what lies beside each other may not go round in a circle.
    const beside = between.filter(
      ({ from, to }) => !from.startsWith(`${to}/`) && !to.startsWith(`${from}/`) && from !== ".",
    );
    expect(circles(beside)).toEqual([]);
  });

  it("no file imports itself through other files, types included", () => {
    expect(circles(inside)).toEqual([]);
  });

  it("the folder seawater imports nothing from other folders", () => {
    const outside = imports.filter(
      ({ from, to }) => folder(from) === "seawater" && folder(to) !== "seawater",
    );
    expect(outside.map(written)).toEqual([]);
  });

  it("no source file is longer than 200 lines", () => {
    const long = files.filter(
      (file) => readFileSync(join(root, file), "utf8").split("\n").length > 200,
    );
    expect(long).toEqual([]);
  });
});
