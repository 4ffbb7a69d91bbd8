import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import * as seawater from "../../src/seawater/index.js";

const sources = ["src/seawater", "src/seawater/columns"].flatMap((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith(".ts"))
    .map((name) => ({ name, folder, text: readFileSync(`${folder}/${name}`, "utf8") })),
);

describe("the folder src/seawater", () => {
  it("the seawater folder imports nothing from outside, so that it could be published alone", () => {
    for (const { name, folder, text } of sources)
      for (const [, source] of text.matchAll(/from "([^"]+)"/g))
        expect(new URL(source!, `file:///${folder}/${name}`).pathname).toMatch(
          /^\/src\/seawater\//,
        );
  });

  const examples = sources.flatMap(({ text }) => [...text.matchAll(/@example (.+?) \/\/ (\S+)/g)]);
  it("has an example for every function of one value", () => {
    const shown = examples.map(([, call]) => call!.split("(")[0]);
    const single = Object.keys(seawater).filter((name) => !name.endsWith("Column"));
    expect([...new Set(shown)].sort()).toEqual(single.sort());
  });

  for (const [, call, result] of examples)
    it(`${call} is ${result}, as its docstring says`, () => {
      const found = new Function(...Object.keys(seawater), `return ${call}`)(
        ...Object.values(seawater),
      );
      if (typeof found === "boolean") expect(String(found)).toBe(result);
      // The example holds to the last digit that it prints.
      else {
        const [mantissa, exponent] = result!.split("e");
        const places = mantissa!.split(".")[1]?.length ?? 12;
        const lastDigit = 10 ** (Number(exponent ?? 0) - places);
        expect(Math.abs(found - Number(result))).toBeLessThan(Math.max(0.51 * lastDigit, 1e-10));
      }
    });

  it("the seawater folder names only sources in the list of references", () => {
    const references = readFileSync("docs/references.md", "utf8");
    for (const { text } of sources)
      for (const [, key] of text.matchAll(/\[([A-Z][A-Za-z]+\d{4}|TEOS10|WebAssembly)\]/g))
        expect(references).toContain(`- [${key}]`);
  });

  it("has every export in docs/seawater.md", () => {
    const page = readFileSync("docs/seawater.md", "utf8");
    for (const name of Object.keys(seawater)) expect(page).toMatch(new RegExp(`\`${name}[(\`]`));
  });
});
