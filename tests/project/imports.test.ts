import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../src", import.meta.url));
const files = readdirSync(root, { recursive: true, encoding: "utf8" }).filter((f) =>
  f.endsWith(".ts"),
);

/** Layers, each may import from itself and those before it. */
const order = [
  ["seawater", "statistics"],
  ["cast"],
  ["health"],
  ["response"],
  ["evidence"],
  ["causes", "track"],
  ["cleaning"],
  ["verdict"],
  ["simulate", "report"],
  ["node"],
  ["cli"],
];
/** Types and the door's checks; `read` knows them and not the science. */
const readMayUse = ["cast", "seawater", "read", "statistics"];

interface Import {
  readonly from: string;
  readonly to: string;
  readonly typeOnly: boolean;
}

const imports: Import[] = files.flatMap((file) => {
  const text = readFileSync(join(root, file), "utf8");
  return [...text.matchAll(/^(import|export)( type)? [^;]*?from "([^"]+)"/gms)].map((match) => ({
    from: file,
    to: match[3]!.startsWith(".")
      ? relative(root, resolve(root, dirname(file), match[3]!))
      : match[3]!,
    typeOnly: match[2] !== undefined,
  }));
});
const folder = (path: string) => (path.includes("/") ? path.split("/")[0]! : "");
const rank = (path: string) => order.findIndex((layer) => layer.includes(folder(path)));

describe("the tree", () => {
  it("only node and cli reach for the file system: the core runs in a browser", () => {
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

  it("seawater depends on nothing else", () => {
    const outside = imports.filter(
      ({ from, to }) =>
        folder(from) === "seawater" && folder(to) !== "seawater" && !from.endsWith(to),
    );
    expect(outside.map(({ from, to }) => `${from} -> ${to}`)).toEqual([]);
  });

  it("dependencies run one way, types apart", () => {
    const against = imports.filter(
      ({ from, to, typeOnly }) => !typeOnly && rank(from) >= 0 && rank(to) > rank(from),
    );
    expect(against.map(({ from, to }) => `${from} -> ${to}`)).toEqual([]);
  });

  it("reading knows types and the door's checks, not the science", () => {
    const science = imports.filter(
      ({ from, to }) =>
        folder(from) === "read" &&
        to.includes("/") &&
        !readMayUse.includes(folder(to)) &&
        rank(to) >= 0,
    );
    expect(science.map(({ from, to }) => `${from} -> ${to}`)).toEqual([]);
  });

  it("no file is too long to be read in one sitting", () => {
    const long = files.filter(
      (file) => readFileSync(join(root, file), "utf8").split("\n").length > 250,
    );
    expect(long).toEqual([]);
  });
});
