// Open data, read from ../shared, which is not part of the package: where it is absent these are skipped.

import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { gainTerms } from "../../../src/model/observation.js";
import { assembleCruise } from "../../../src/read/assembleCruise.js";
import { readBottlesCsv } from "../../../src/read/bottlesCsv.js";
import { cruiseEvidence } from "../../../src/verdict/gather/cruiseEvidence.js";
import type { CastEvidence } from "../../../src/verdict/gather/observeCast.js";

function evidenceOf(id: string): readonly CastEvidence[] {
  const path = `../shared/data/subpolar-atlantic-${id}/bottles.csv`;
  if (!existsSync(path)) return [];
  const { bottles, casts, input } = readBottlesCsv(readFileSync(path, "utf8"), { file: path });
  const parts = { name: id, casts: [], bottles, bottleCasts: casts, inputs: [input] };
  return [...cruiseEvidence(assembleCruise(parts))];
}

const ar21 = evidenceOf("ar21");
const cast = (id: string) => ar21.find((one) => one.cast.id === id)!;
const line = (id: string) => cast(id).lines.find((one) => one.line === "bottles")!;
const leftOut = (id: string, cell: string) =>
  cast(id).shown.find((own) => own.line === "bottles" && own.cell === cell)!.leftOut;

// What is wrong with the cruise is told in SOURCE.md beside it.
describe.skipIf(ar21.length === 0)(
  "the subpolar Atlantic cruise ar21 (skipped without ../shared/data)",
  () => {
    it("cast 011 has the salinities of cast 007: none is used, and the reason is given", () => {
      expect(line("011").observations).toEqual([]);
      expect(line("011").leftOut).toHaveLength(11);
      for (const { why } of line("011").leftOut) expect(why).toMatch(/copied: .* of cast 007/);
      for (const { why } of line("007").leftOut) expect(why).not.toMatch(/copied/);
    });

    it("cast 010 reads salty by 0.01 to 0.1: its bottles share an error of hundredths, and blame no cell", () => {
      expect(line("010").notes.join()).toMatch(/spoilt: its shared error/);
      const precision = line("010").observations.reduce((sum, o) => sum + 1 / o.variance, 0);
      // 0.02 in salinity are 510 ppm at SP 35 (PSS-78).
      expect(Math.sqrt(1 / precision)).toBeGreaterThan(510);
      expect(line("010").notes.join()).not.toMatch(/cell/);
    });

    it("the first cell's transients at 507 dbar and at 1829 dbar are the cell's, and the bottles are used beside the other", () => {
      for (const [id, label] of [
        ["007", "bottle 3 at 507 dbar"],
        ["008", "bottle 4 at 1829 dbar"],
      ] as const) {
        const stray = leftOut(id, "primary").find(({ what }) => what === label)!;
        expect(stray.why).toMatch(/so the primary cell was off, not the bottle/);
        expect(leftOut(id, "secondary").map(({ what }) => what)).not.toContain(label);
        const used = line(id).observations.find(({ bottle }) =>
          label.startsWith(`bottle ${bottle} `),
        )!;
        expect(gainTerms(used)[0]!.gain.cell).toBe("secondary");
      }
    });

    it("casts 007, 008 and 012 keep their bottles' weight", () => {
      for (const id of ["007", "008", "012"]) {
        const { observations } = line(id);
        expect(observations.length).toBeGreaterThan(8);
        const precision = observations.reduce((sum, o) => sum + 1 / o.variance, 0);
        expect(Math.sqrt(1 / precision)).toBeLessThan(30);
      }
    });
  },
);

for (const id of ["ar7-01", "at30-01", "kn221-04"]) {
  const evidence = evidenceOf(id);
  describe.skipIf(evidence.length === 0)(
    `the cruise ${id}, on which nothing is known to be wrong (skipped without ../shared/data)`,
    () => {
      it("has no copied salinities, and at least three of four casts share no error", () => {
        const lines = evidence.flatMap(({ lines }) =>
          lines.filter((one) => one.line === "bottles"),
        );
        const why = lines.flatMap((one) => one.leftOut.map((left) => left.why));
        expect(why.join()).not.toMatch(/copied/);
        const doubted = lines.filter(({ notes }) => notes.join().includes("shared error"));
        expect(doubted.length / lines.length).toBeLessThan(0.34);
      });
    },
  );
}
