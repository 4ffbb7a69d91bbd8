// docs/api.md is written by hand. The compiler reads the declarations, and every call that the page shows is held to them.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));
const paths = {
  foulcast: "src/index.ts",
  "foulcast/cleaning": "src/cleaning.ts",
  "foulcast/node": "src/node/index.ts",
  "foulcast/seawater": "src/seawater/index.ts",
  "foulcast/simulate": "src/simulate/index.ts",
  "foulcast/steps": "src/steps.ts",
};

const { options } = ts.parseJsonConfigFileContent(
  ts.readConfigFile(join(root, "tsconfig.json"), ts.sys.readFile).config,
  ts.sys,
  root,
);
const program = ts.createProgram(
  Object.values(paths).map((path) => join(root, path)),
  options,
);
const checker = program.getTypeChecker();

/** Fewest and most arguments of each exported function of a file. */
function argumentsOf(path: string): ReadonlyMap<string, readonly [least: number, most: number]> {
  const module = checker.getSymbolAtLocation(program.getSourceFile(join(root, path))!)!;
  return new Map(
    checker.getExportsOfModule(module).flatMap((symbol) => {
      const target =
        symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
      if (target.valueDeclaration === undefined) return [];
      const type = checker.getTypeOfSymbolAtLocation(target, target.valueDeclaration);
      const [call] = type.getCallSignatures();
      if (call === undefined) return [];
      const parameters = call.getParameters().map(({ valueDeclaration }) => valueDeclaration);
      const needed = parameters.filter(
        (one) => one !== undefined && !checker.isOptionalParameter(one as ts.ParameterDeclaration),
      );
      return [[symbol.getName(), [needed.length, parameters.length] as const] as const];
    }),
  );
}

/** Arguments of a call as it is written, `text, { file }`: commas in braces part none. */
const countOf = (written: string) =>
  written.trim() === "" ? 0 : written.replaceAll(/\{[^}]*\}/g, "_").split(",").length;

describe("docs/api.md", () => {
  const parts = readFileSync(join(root, "docs/api.md"), "utf8").split(/^## /m).slice(1);

  it.each(Object.entries(paths))(
    "%s: each call in docs/api.md has as many arguments as its declaration allows",
    (name, path) => {
      const part = parts.find((one) => one.startsWith(`\`${name}\``))!;
      const declared = argumentsOf(path);
      const shown = [...part.matchAll(/`(\w+)\(([^`]*)\)`/g)];
      const wrong = shown.filter(([, called, written]) => {
        const range = declared.get(called!);
        const count = countOf(written!);
        return range === undefined || count < range[0] || count > range[1];
      });
      expect(shown).not.toEqual([]);
      expect(wrong.map(([call]) => call)).toEqual([]);
    },
  );
});
