import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { software } from "../../src/software.js";
import { verdictSchema } from "../../src/verdict/verdictSchema.js";

const read = (path: string) =>
  JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), "utf8"));

describe("the package", () => {
  it("a verdict names the version in package.json", () => {
    const { name, version } = read("package.json");
    expect({ name, version }).toEqual(software);
  });

  it("the published JSON Schema equals the one that the definition of the verdict gives", () => {
    // Made by `npm run schema`.
    expect(read("docs/verdict.schema.json")).toEqual(z.toJSONSchema(verdictSchema));
  });
});
