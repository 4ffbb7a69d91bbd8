// The short way through plain lines against the CSV library for every line: the same columns, faults, line numbers.
import { parse } from "csv-parse/browser/esm/sync";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BadInput } from "../../src/read/badInput.js";
import { castBuilder, type ReadCast } from "../../src/read/castBuilder.js";
import { castReader } from "../../src/read/castReader.js";
import { numberCell } from "../../src/read/numberCell.js";
import { emptyFault, lastWholeLine, tableFault, tableOptions } from "../../src/read/table.js";
import { type ParsedRecord, tableRow } from "../../src/read/tableRow.js";
import { faultsOf } from "./faultsOf.js";

const facts = { id: "1", file: "a.csv" };

/** Every line through the CSV library, at once. */
function slowWay(text: string): ReadCast {
  let records: readonly ParsedRecord[];
  const options = { ...tableOptions, info: true };
  try {
    records = parse(text, options) as unknown as readonly ParsedRecord[];
  } catch (error) {
    throw tableFault(error, facts.file, lastWholeLine(text, options));
  }
  const [head, ...rows] = records.map(tableRow);
  if (head === undefined) throw new BadInput([emptyFault(facts.file)]);
  const builder = castBuilder(head, facts);
  for (const row of rows) builder.push(row);
  return builder.finish();
}

/** The bytes of a text in pieces of these lengths, over and over. */
function shortWay(bytes: Uint8Array, lengths: readonly number[]): ReadCast {
  const reader = castReader(facts);
  for (let at = 0, k = 0; at < bytes.length; k++) {
    const next = at + (lengths[k % lengths.length] ?? bytes.length);
    reader.push(bytes.slice(at, next));
    at = next;
  }
  return reader.finish();
}

const number = fc.oneof(
  { weight: 60, arbitrary: fc.double({ min: 0, max: 50, noNaN: true }).map((x) => x.toFixed(4)) },
  fc.double().map(String),
  fc.constantFrom("", " ", "NaN", "-999", "-999.0", "-99", "1e3", "+4.", ".5", "-.5", "1.2.3"),
  fc.constantFrom("12345678901234567890", "0.1234567890123456789", "4 ", " 5", "\t6", "x", "é"),
  fc.constantFrom('"7"', '"a, b"', '"two\nlines"', 'say""', '"open', "-", "+", "0x1f", "1,5"),
);
const row = fc
  .tuple(
    fc.array(number, { minLength: 4, maxLength: 4 }),
    fc.constantFrom("", "", "", "", ",", ",,x"),
  )
  .map(([cells, more]) => cells.join(",") + more);
const line = fc.oneof(
  { weight: 12, arbitrary: row },
  fc.constantFrom("# pause", "", "  ", ' # say "x"', "1,2", "10,2,10,30"),
);
const body = fc.array(fc.tuple(line, fc.constantFrom("\n", "\n", "\n", "\r\n", "\r")), {
  minLength: 1,
  maxLength: 40,
});

describe("the short way through a cast's lines", () => {
  it("the fast row reader gives the same as the CSV library: columns, notes, excluded rows, faults with lines", () => {
    fc.assert(
      fc.property(
        fc.constantFrom("", "\ufeff", "# invented\n\n"),
        fc.constantFrom(
          "n,pressure_dbar,temperature_C,conductivity_mS_cm",
          '"n",temperature_C, pressure_dbar ,"conductivity_mS_cm"',
        ),
        body,
        fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 1, maxLength: 5 }),
        (before, head, lines, lengths) => {
          // The last line is ended, so that nothing looks cut short.
          const text = `${before}${head}\n${lines.flat().join("")}\n`;
          let slow: ReadCast | undefined;
          const faults = faultsOf(() => {
            slow = slowWay(text);
          });
          let quick: ReadCast | undefined;
          const found = faultsOf(() => {
            quick = shortWay(new TextEncoder().encode(text), lengths);
          });
          // What may be offered for a heading rests on rows, which the slow way is not shown.
          const told = ({ mend: _, ...rest }: (typeof faults)[number]) => rest;
          expect(found.map(told)).toEqual(faults.map(told));
          expect(quick).toEqual(slow);
        },
      ),
      { seed: 20310507, numRuns: 300 },
    );
  });

  it("the fast row reader reads each number as the nearest double", () => {
    fc.assert(
      fc.property(
        fc.tuple(
          fc.constantFrom("", "-", "+"),
          fc.string({ unit: fc.constantFrom(..."0123456789"), maxLength: 9 }),
          fc.constantFrom("", "."),
          fc.string({ unit: fc.constantFrom(..."0123456789"), maxLength: 12 }),
        ),
        (parts) => {
          const cell = parts.join("");
          const head = "pressure_dbar,temperature_C,conductivity_mS_cm,time_s";
          const text = `${head}\n10,4,33,0\n20,4,33,${cell}\n30,4,33,1\n40,4,33,2\n`;
          let time: number | undefined;
          faultsOf(() => {
            time = shortWay(new TextEncoder().encode(text), [9]).cast.columns.time_s![1];
          });
          const expected = numberCell(cell) ?? Number.NaN;
          // Times that no clock gives are taken out by another rule.
          if (time !== undefined && Math.abs(expected) <= 1e10) expect(time).toBe(expected);
        },
      ),
      { seed: 20310508, numRuns: 500 },
    );
  });

  it("text that is not UTF-8 gets a note", () => {
    const text =
      "pressure_dbar,temperature_C,conductivity_mS_cm,place\n10,4,33,Tromsø\n20,4,33,x\n";
    const bytes = Uint8Array.from(text, (c) => c.charCodeAt(0));
    const { cast, input } = shortWay(bytes, [7]);
    expect(cast.columns.others.place).toEqual(["Tromsø", "x"]);
    expect(input.notes.join()).toContain("not UTF-8");
  });

  it("a line without an end is refused", () => {
    const reader = castReader(facts);
    reader.push(new TextEncoder().encode("pressure_dbar,temperature_C,conductivity_mS_cm\n"));
    const piece = new Uint8Array(1_000_000).fill(49);
    const [fault] = faultsOf(() => {
      for (let k = 0; k < 10; k++) reader.push(piece);
    });
    expect(fault).toMatchObject({ line: 2 });
  });

  it("other columns are not kept if they are not requested", () => {
    const reader = castReader({ ...facts, keepOthers: false });
    const text = "pressure_dbar,temperature_C,conductivity_mS_cm,o2\n10,4,33,5\n20,4,33,6\n";
    reader.push(new TextEncoder().encode(text));
    expect(reader.finish().cast.columns.others).toEqual({});
  });
});
