// A cause is one file and one line, and so is a line of evidence: both are added in a temporary copy of the source, which
// must then pass the type check, and run.
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { temporaryFolder } from "../temporaryFolder.js";

const root = fileURLToPath(new URL("../..", import.meta.url));
const copy = temporaryFolder("extended");

const inventedCause = `
import type { Cause } from "../model/cause.js";

/** Invented for a test: a barnacle on the frame adds to what the invented line reads. */
export const barnacle: Cause<"barnacle"> = {
  name: "barnacle",
  removedByCleaning: false,
  isTemporary: true,
  isCorrectedOnly: false,
  initialStates: [],
  propose: ({ lines }) =>
    lines.has("sonar")
      ? [
          {
            prior: 0.3,
            coefficients: [{ acts: [{ shared: "sonarError", weight: 1 }], sd: 500 }],
            doubts: [{ cause: "barnacle" }],
          },
        ]
      : [],
  matches: ({ isDoubted }) => isDoubted("barnacle"),
  sentence: () => "A barnacle sits on the frame.",
  action: "Scrape the frame.",
};
`;

const inventedLine = `
import { gainOf } from "../../model/observation.js";
import type { EvidenceLine } from "../evidenceLine.js";

/** Invented for a test: reads 400 ppm salty on every cast, with an error that its observations share. */
export const sonarLine: EvidenceLine<number> = {
  name: "sonar",
  ofGain: true,
  shown: true,
  sharedErrors: [
    { name: "sonarError", unit: "ppm", evolution: { kind: "independent" }, noise: { usual: 2 } },
  ],
  begin: 0,
  observe: ({ cast, cells }, casts) => ({
    lines: cells.slice(0, 1).map((cell) => ({
      line: "sonar",
      cast: cast.id,
      cell,
      observations: [
        {
          line: "sonar",
          cast: cast.id,
          design: [gainOf(cell, "up"), { shared: "sonarError", weight: 1 }],
          unit: "ppm",
          value: 400,
          variance: 25,
          pressure_dbar: 1000,
        },
      ],
      leftOut: [],
      notes: ["cast " + (casts + 1) + " of the sonar"],
    })),
    memory: casts + 1,
  }),
};
`;

const run = `
import { assessCruise } from "./dist/index.js";
import { simulateCruise } from "./dist/simulate/index.js";
const { cruise } = simulateCruise({ seed: 5, casts: 3, deepest_dbar: 1500 });
const { casts } = assessCruise(cruise);
const last = casts.at(-1);
console.log(JSON.stringify({
  causes: last.cells.primary.causes,
  action: last.advice.action,
  notes: last.notes,
  lines: last.evidence.map(({ line }) => line),
}));
`;

beforeAll(() => {
  for (const name of ["src", "tsconfig.json", "tsconfig.build.json", "package.json"])
    cpSync(join(root, name), join(copy, name), { recursive: true });
  symlinkSync(join(root, "node_modules"), join(copy, "node_modules"));
});

/** One line into a list that holds others. */
function addTo(file: string, importLine: string, before: string, name: string): void {
  const path = join(copy, "src", file);
  const text = readFileSync(path, "utf8");
  expect(text).toContain(before);
  writeFileSync(path, `${importLine}\n${text.replace(before, `  ${name},\n${before}`)}`);
}

describe("a copy of the source with one invented cause and one invented line of evidence", () => {
  it("an added cause and line of evidence need one file and one line each to appear in verdicts", () => {
    writeFileSync(join(copy, "src/causes/barnacle.ts"), inventedCause);
    addTo(
      "causes/index.ts",
      'import { barnacle } from "./barnacle.js";',
      "  fouling,\n  transient,",
      "barnacle",
    );
    mkdirSync(join(copy, "src/evidence/sonar"));
    writeFileSync(join(copy, "src/evidence/sonar/sonarLine.ts"), inventedLine);
    addTo(
      "evidence/lines.ts",
      'import { sonarLine } from "./sonar/sonarLine.js";',
      "  airLine,\n];",
      "sonarLine",
    );
    const node = (...words: string[]) =>
      execFileSync(process.execPath, words, { cwd: copy, encoding: "utf8" });
    const tsc = join(root, "node_modules/typescript/bin/tsc");
    expect(node(tsc, "-p", "tsconfig.build.json")).toBe("");
    writeFileSync(join(copy, "run.mjs"), run);
    const said = JSON.parse(node(pathToFileURL(join(copy, "run.mjs")).pathname)) as {
      readonly causes: readonly { readonly cause: string; readonly because: string }[];
      readonly notes: readonly string[];
      readonly lines: readonly string[];
    };
    expect(said.lines).toContain("sonar");
    expect(said.notes).toContain("sonar, primary cell: cast 3 of the sonar");
    expect(said.causes[0]).toMatchObject({
      cause: "barnacle",
      because: "A barnacle sits on the frame.",
    });
  });
});
