import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const key = /\[([A-Z][A-Za-z]*\d{2,4}|[A-Z][A-Za-z]+Records|WebAssembly)\]/g;

const textsOf = (folder: string) =>
  readdirSync(`${root}/${folder}`, { recursive: true, encoding: "utf8" })
    .filter((file) => /\.(ts|md|py)$/.test(file) && file !== "references.md")
    .map((file) => readFileSync(`${root}/${folder}/${file}`, "utf8"));
const used = new Set(
  ["src", "docs", "fixtures", "scripts", "tests"]
    .flatMap(textsOf)
    .flatMap((text) => [...text.matchAll(key)].map((m) => m[1]!)),
);
const listed = [
  ...readFileSync(`${root}/docs/references.md`, "utf8").matchAll(/^- \[([^\]]+)\]/gm),
].map((m) => m[1]!);

describe("sources", () => {
  it("docs/references.md has every source key that is used", () => {
    expect([...used].filter((name) => !listed.includes(name))).toEqual([]);
  });
  it("every entry of docs/references.md is used, listed once and in alphabetical order", () => {
    expect(listed.filter((name) => !used.has(name))).toEqual([]);
    const sorted = [...listed].sort((a, b) => a.toLowerCase().localeCompare(b.toLowerCase()));
    expect(listed).toEqual(sorted);
  });
});
