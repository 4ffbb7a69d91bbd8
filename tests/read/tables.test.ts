import { parse } from "csv-parse/browser/esm/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { numberCell } from "../../src/read/numberCell.js";
import { plainRows, readTable, tableOptions } from "../../src/read/table.js";
import { type ParsedRecord, tableRow } from "../../src/read/tableRow.js";
import { timeCell } from "../../src/read/timeCell.js";
import { faultsOf } from "./faultsOf.js";

// The grammar of a table [Shafranovich2005], and comments as a ship's logger writes them.
const commas = { separator: ",", decimal: ".", headingLine: 1 } as const;
describe("a table", () => {
  const three = [
    { line: 2, cells: ["1", "2"] },
    { line: 3, cells: ["3", "4"] },
    { line: 4, cells: ["5", "6"] },
  ];
  it.each([
    ["LF", "a,b\n1,2\n3,4\n5,6\n"],
    ["CR LF [Shafranovich2005, 2.1]", "a,b\r\n1,2\r\n3,4\r\n5,6\r\n"],
    ["CR", "a,b\r1,2\r3,4\r5,6\r"],
    ["no end of the last line [Shafranovich2005, 2.2]", "a,b\n1,2\n3,4\n5,6"],
    ["lines of two computers joined, LF first", "a,b\n1,2\r\n3,4\n5,6"],
    ["lines of two computers joined, CR LF first", "a,b\r\n1,2\n3,4\r\n5,6"],
    ["a byte-order mark", "\ufeffa,b\n1,2\n3,4\n5,6\n"],
    ["blanks around the cells", " a , b\n 1,2 \n\t3,4\n5 , 6\n"],
  ])("reads the same with %s", (_, text) => {
    const { headings, headingLine, rows } = readTable(text, "t.csv");
    expect({ headings, headingLine, rows }).toEqual({
      headings: ["a", "b"],
      headingLine: 1,
      rows: three,
    });
  });

  it("commas and doubled quotes in a quoted cell are kept [Shafranovich2005, 2.6 and 2.7]", () => {
    const { rows } = readTable('a,b\n"1,5","say ""rinse"""\n', "t.csv");
    expect(rows[0]!.cells).toEqual(["1,5", 'say "rinse"']);
  });

  it("line numbers are those of an editor, with comments and blank lines", () => {
    const { headingLine, rows } = readTable("# invented\n\na,b\n# pause\n1,2\n\n3,4\n", "t.csv");
    expect(headingLine).toBe(3);
    expect(rows.map(({ line }) => line)).toEqual([5, 7]);
  });

  it("a table without quotes has the rows of the CSV parser", () => {
    const line = fc.string({
      unit: fc.constantFrom("1", "-", ".", "a", ",", ",", " ", "\t", "#", "é"),
      maxLength: 8,
    });
    const lines = fc.array(fc.tuple(line, fc.constantFrom("\n", "\r\n", "\r")), { maxLength: 8 });
    fc.assert(
      fc.property(fc.boolean(), lines, (mark, pairs) => {
        const text = (mark ? "\ufeff" : "") + pairs.flat().join("");
        const parsed = parse(text, { ...tableOptions, info: true });
        expect(plainRows(text, commas)).toEqual(
          (parsed as unknown as ParsedRecord[]).map(tableRow),
        );
      }),
      { seed: 20310505, numRuns: 1000 },
    );
  });

  it("below a preamble and comments with quotes has its rows and lines as an editor counts them", () => {
    const text = '# "invented"\nby nobody\n\nname;x\n"a; b";1,5\n# pause "2"\nc;2,5\n';
    const { headings, headingLine, rows } = readTable(text, "t.csv");
    expect({ headings, headingLine }).toEqual({ headings: ["name", "x"], headingLine: 4 });
    expect(rows).toEqual([
      { line: 5, cells: ["a; b", "1.5"] },
      { line: 7, cells: ["c", "2.5"] },
    ]);
    const bottles = '# "x"\ncast,bottle,pressure_dbar,salinity\n"1",1,20,35\n';
    expect(readTable(bottles, "t.csv").headingLine).toBe(2);
  });

  it.each([
    ["a quote that is never closed", 'a,b\n1,2\n3,"4\n5,6\n', 3],
    ["a quote within a cell", 'a,b\n1,2\n3,4"5\n', 3],
    ["text behind a closing quote", 'a,b\n"1"x,2\n', 2],
  ])("gives the line of %s", (_, text, line) => {
    const faults = faultsOf(() => readTable(text, "t.csv"));
    expect(faults).toHaveLength(1);
    // The parser may notice a quote that is never closed only at the end of the text.
    expect(faults[0]!.line).toBeGreaterThanOrEqual(line);
    expect(faults[0]!.file).toBe("t.csv");
  });

  it("every repeated heading is named", () => {
    const faults = faultsOf(() => readTable("a,b,a,b,c\n1,2,3,4,5\n", "t.csv"));
    expect(faults.map(({ column, line }) => [column, line])).toEqual([
      ["a", 1],
      ["b", 1],
    ]);
  });

  it.each(["", "\n\n", "# only a comment\n", "\ufeff"])(
    "that is empty is refused with that reason: %j",
    (text) => {
      expect(faultsOf(() => readTable(text, "t.csv"))).toHaveLength(1);
    },
  );

  it("a hundred thousand headings do not hang the reader", () => {
    const headings = Array.from({ length: 100_000 }, (_, i) => `h${i}`);
    const { rows } = readTable(`${headings.join()}\n${headings.join()}\n`, "t.csv");
    expect(rows).toHaveLength(1);
  });
});

describe("a cell as a number", () => {
  it.each([
    ["12", 12],
    ["-0.5", -0.5],
    ["+.5", 0.5],
    ["3.", 3],
    ["1.25e-3", 0.00125],
    [" 34.9 ", 34.9],
  ])("%j is %d", (text, value) => {
    expect(numberCell(text)).toBe(value);
  });
  // JavaScript's own Number("") is 0: the classic silent error.
  it.each(["", "   ", "NaN", "nan", "-999", "-999.0000", "-9999999"])("%j is missing", (text) => {
    expect(numberCell(text)).toBeNaN();
  });
  it.each(["0x10", "1,5", "1e400", "Infinity", "12 dbar", "--1", "1.2.3", "1_000", "٣"])(
    "%j is none",
    (text) => {
      expect(numberCell(text)).toBeUndefined();
    },
  );
  it.each(["-99", "-9", "0", "-999.5"])("%j is a number, not a mark for missing", (text) => {
    expect(numberCell(text)).toBe(Number(text));
  });
});

describe("a cell as a time (ISO 8601)", () => {
  it.each([
    ["2031-05-04T12:30:00Z", "2031-05-04T12:30:00.000Z"],
    ["2031-05-04 12:30:00+00:00", "2031-05-04T12:30:00.000Z"],
    ["2031-05-04T12:30:00.250Z", "2031-05-04T12:30:00.250Z"],
    ["2031-05-04T14:30:00+02", "2031-05-04T12:30:00.000Z"],
    ["2031-05-04T09:00-0330", "2031-05-04T12:30:00.000Z"],
    ["2028-02-29T00:00Z", "2028-02-29T00:00:00.000Z"],
  ])("%s is %s", (text, time) => {
    expect(timeCell(text)).toBe(time);
  });
  it("a time without zone is UTC, for any time zone of the computer", () => {
    expect(timeCell("2031-05-04 12:30:00")).toBe("2031-05-04T12:30:00.000Z");
  });
  // A date that the calendar has not would be taken by JavaScript for one in the next month.
  it.each([
    "2031-02-29T00:00:00Z",
    "2031-04-31T00:00:00Z",
    "04/05/2031 12:30",
    "noon",
    "2031-13-01",
  ])("%s is none", (text) => {
    expect(timeCell(text)).toBeNull();
  });
});
