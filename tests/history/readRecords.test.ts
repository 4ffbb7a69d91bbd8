import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { joinRecords, readRecords } from "../../src/history/readRecords.js";
import { BadInput } from "../../src/index.js";
import { recordFor } from "./recordFor.js";

const file = "histories.jsonl";
const line = JSON.stringify(recordFor());

function faultsOf(work: () => unknown) {
  try {
    work();
  } catch (error) {
    if (error instanceof BadInput) return error.faults;
    throw error;
  }
  throw new Error("nothing was refused");
}

describe("a history as text", () => {
  it("records as JSON lines are read back unchanged, and empty lines are skipped", () => {
    const records = [recordFor(), recordFor({ serial: "K-22" })];
    const text = `\n${records.map((one) => JSON.stringify(one)).join("\n\n")}\n`;
    expect(readRecords(text, { file }).map(({ record }) => record)).toEqual(records);
  });

  it("a record line cut anywhere is refused with file and line", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: line.length - 1 }), (length) => {
        const faults = faultsOf(() => readRecords(`${line}\n${line.slice(0, length)}`, { file }));
        expect(faults[0]).toMatchObject({ file, line: 2 });
      }),
      { seed: 17, numRuns: 60 },
    );
  });

  it("every wrong key of every line is named at once", () => {
    const odd = { ...recordFor(), casts: 0, colour: "blue" };
    const faults = faultsOf(() =>
      readRecords(`${JSON.stringify(odd)}\n${line}\nnonsense`, { file }),
    );
    expect(faults.map((one) => [one.line, one.column])).toEqual([
      [1, "casts"],
      [1, undefined],
      [3, undefined],
    ]);
    expect(faults[1]!.found).toContain("colour");
  });

  it("a later format is refused by its name", () => {
    const later = line.replace("foulcast-history/1", "foulcast-history/2");
    const [fault] = faultsOf(() => readRecords(later, { file }));
    expect(fault).toMatchObject({
      column: "format",
      found: '"foulcast-history/2"',
      expected: "the format foulcast-history/1",
    });
  });
});

describe("records of several files", () => {
  const at = (record = recordFor(), where = "a.jsonl") => ({ record, file: where, line: 1 });

  it("a record that occurs twice counts once", () => {
    expect(joinRecords([at(), at(recordFor(), "b.jsonl")])).toHaveLength(1);
  });

  it("two different records of one cell and cruise are refused with both places", () => {
    const [fault] = faultsOf(() => joinRecords([at(), at(recordFor({ casts: 15 }), "b.jsonl")]));
    expect(fault).toMatchObject({ file: "b.jsonl", line: 1 });
    expect(fault!.found).toContain("a.jsonl, line 1");
  });

  it("records are in order of time, for any order of the files", () => {
    const later = recordFor({
      cruise: "RV Quillwort, autumn (invented)",
      from: { cast: "001", start: "2021-10-03T06:00:00.000Z" },
    });
    expect(joinRecords([at(later), at()]).map(({ cruise }) => cruise)).toEqual([
      recordFor().cruise,
      later.cruise,
    ]);
  });
});
