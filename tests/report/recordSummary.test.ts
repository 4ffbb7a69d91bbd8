import fc from "fast-check";
import { expect, it } from "vitest";
import { severities } from "../../src/cleaning/record/recordRule.js";
import { type CheckedRecord, recordSummary } from "../../src/report/terminal/recordSummary.js";

const finding = fc.record({
  rule: fc.constantFrom("no-final-flush", "overlap", "weak-battery"),
  severity: fc.constantFrom(...severities),
  because: fc.string({ minLength: 1, maxLength: 60 }),
  source: fc.constant("common practice, no source"),
  line: fc.integer({ min: 2, max: 400 }),
});
const empty: CheckedRecord = {
  format: "foulcast-record/1",
  record: "record.csv",
  now: "2031-05-08T12:00:00.000Z",
  entries: 0,
  findings: [],
  due: [],
  cautions: ["Work in good ventilation."],
  notes: [],
};

it("every finding is shown by its line, the worst first, and the cautions last", () => {
  fc.assert(
    fc.property(fc.array(finding, { minLength: 1, maxLength: 25 }), (findings) => {
      const text = recordSummary({ ...empty, findings }, { colour: false, width: 100 });
      const shown = text.replace(/\s+/g, " ");
      for (const { line, rule } of findings) {
        expect(shown).toMatch(new RegExp(`line ${line}\\b`));
        expect(shown).toContain(rule);
      }
      const places = severities
        .filter((severity) => findings.some((one) => one.severity === severity))
        .map((severity) => text.search(new RegExp(`^${severity}: `, "m")));
      expect(places.every((place) => place >= 0)).toBe(true);
      expect(places).toEqual([...places].sort((a, b) => a - b));
      expect(text.indexOf("! Work in good ventilation.")).toBeGreaterThan(places.at(-1)!);
    }),
    { seed: 8, numRuns: 200 },
  );
});

it("no control character of a record reaches the terminal", () => {
  const findings = [
    {
      rule: "overlap",
      severity: "error" as const,
      because: "\u001b[2Jgone\u0007",
      source: "the record itself",
    },
  ];
  const text = recordSummary({ ...empty, findings }, { colour: false, width: 80 });
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
  expect(text).not.toMatch(/[\u0000-\u0009\u000b-\u001f]/);
});
