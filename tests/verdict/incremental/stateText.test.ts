import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BadInput } from "../../../src/read/badInput.js";
import { randomStream } from "../../../src/simulate/index.js";
import { software } from "../../../src/software.js";
import { crc32 } from "../../../src/verdict/incremental/crc32.js";
import { openCruise } from "../../../src/verdict/incremental/openCruise.js";
import { fromPlainJson, toPlainJson } from "../../../src/verdict/incremental/plainJson.js";
import {
  differencesText,
  numbersFromDifferences,
} from "../../../src/verdict/incremental/plainNumbers.js";
import { readState, writeState } from "../../../src/verdict/incremental/stateText.js";

const throughText = (value: unknown) =>
  fromPlainJson(JSON.parse(JSON.stringify(toPlainJson(value))));

describe("plain values as JSON", () => {
  it("come back the same to the last bit: numbers, NaN, signed zeros, typed arrays, maps, odd keys", () => {
    const own = { noNullPrototype: true };
    const numbers = fc.oneof(fc.double(), fc.constant(0), fc.constant(-0), fc.constant(Number.NaN));
    const plain = fc.anything({
      values: [numbers, fc.string(), fc.boolean(), fc.constant(null)],
      key: fc.oneof(fc.string(), fc.constantFrom("~", "~f64", "~table")),
    });
    const rows = fc.array(fc.record({ a: numbers, b: numbers }, own), {
      minLength: 0,
      maxLength: 8,
    });
    const columns = fc.array(numbers).map((values) => Float64Array.from(values));
    const maps = fc.array(fc.tuple(fc.integer(), numbers)).map((pairs) => new Map(pairs));
    fc.assert(
      fc.property(fc.record({ plain, rows, columns, maps }, own), (value) => {
        expect(throughText(value)).toStrictEqual(value);
      }),
      { seed: 9, numRuns: 300 },
    );
  });

  it("are written once where they are met twice or are the same to the last bit, and are one value again", () => {
    const one = { values: Float64Array.of(1, 2, 3) };
    const same = { values: Float64Array.of(1, 2, 3) };
    const other = { values: Float64Array.of(1, 2, -0) };
    const read = throughText({ a: one, b: [one, same, other] }) as { a: unknown; b: unknown[] };
    expect(read.a).toStrictEqual(one);
    expect(read.b[0]).toBe(read.a);
    expect(read.b[1]).toBe(read.a);
    expect(read.b[2]).toStrictEqual(other);
  });

  it("are short in columns: a hundred rows of five like numbers take less than a quarter of what JSON takes", () => {
    const stream = randomStream(3);
    const rows = Array.from({ length: 100 }, (_, i) => ({
      index: 160 + i,
      salinity: 34.7 + 1e-3 * stream.normal(),
      pressure_dbar: 1000 + 30 * i + stream.normal(),
      temperature_C: 4 - 0.02 * i + 1e-3 * stream.normal(),
      conductivity_mS_cm: 33 - 0.01 * i + 1e-3 * stream.normal(),
    }));
    expect(throughText(rows)).toStrictEqual(rows);
    expect(JSON.stringify(toPlainJson(rows)).length).toBeLessThan(JSON.stringify(rows).length / 4);
  });

  it("come back from differences to the last bit: whole numbers, signs, extremes, NaN", () => {
    const numbers = fc.oneof(fc.double(), fc.integer(), fc.maxSafeInteger(), fc.constant(-0));
    fc.assert(
      fc.property(fc.array(numbers, { maxLength: 70 }), (values) => {
        const column = Float64Array.from(values);
        expect(numbersFromDifferences(differencesText(column))).toStrictEqual(column);
      }),
      { seed: 10, numRuns: 500 },
    );
    expect(() => numbersFromDifferences([40, differencesText(Float64Array.of(1, 2))[1]])).toThrow(
      TypeError,
    );
  });

  it("refuse what is not plain", () => {
    expect(() => toPlainJson({ of: () => 1 })).toThrow(TypeError);
    expect(() => toPlainJson(new Date(0))).toThrow(TypeError);
    expect(() => fromPlainJson({ shapes: [], shared: [], value: { "~": 3 } })).toThrow(TypeError);
  });
});

it("crc32 gives the check value of the code, CBF43926 for 123456789 (RFC 1952's code; value from memory)", () => {
  expect(crc32("123456789")).toBe("cbf43926");
  expect(crc32("")).toBe("00000000");
});

describe("the text of a state", () => {
  const text = writeState(openCruise({ name: "an invented cruise" }));
  const faultOf = (changed: string) => {
    try {
      readState(changed);
    } catch (error) {
      if (error instanceof BadInput) return error.faults[0];
      throw error;
    }
    return undefined;
  };

  it("is JSON that names its form, the software and a checksum", () => {
    const { format, checksum, plain, ...rest } = JSON.parse(text);
    expect({ format, ...rest }).toEqual({ format: "foulcast-state/1", software });
    expect(checksum).toBe(crc32(JSON.stringify(plain)));
    expect(readState(text)).toEqual(openCruise({ name: "an invented cruise" }));
  });

  it("is refused wherever it is cut", () => {
    for (let end = 0; end < text.trimEnd().length; end += 7) {
      expect(faultOf(text.slice(0, end)), String(end)).toBeDefined();
    }
  });

  it("is refused where one character of what is kept was changed", () => {
    const changed = text.replace("invented", "imagined");
    expect(changed).not.toBe(text);
    expect(faultOf(changed)?.column).toBe("checksum");
  });

  it("is refused by name where its form or its software is another", () => {
    const mend = "Open the cruise again and add its casts, bottles and record.";
    for (const other of ["foulcast-state/0", "foulcast-state/2"]) {
      expect(faultOf(text.replace("foulcast-state/1", other))).toEqual({
        file: "state",
        line: 0,
        column: "format",
        found: JSON.stringify(other),
        expected: '"foulcast-state/1", which this version writes',
        mend,
      });
    }
    const older = text.replace(`"version":"${software.version}"`, '"version":"0.0.1"');
    expect(faultOf(older)).toEqual({
      file: "state",
      line: 0,
      column: "software",
      found: "foulcast 0.0.1",
      expected: `foulcast ${software.version}: another version may give other numbers`,
      mend,
    });
    expect(faultOf(text.replace('"software"', '"hardware"'))?.found).toBe("none");
    expect(faultOf("[]")?.column).toBe("format");
    expect(faultOf("null")?.column).toBe("format");
  });
});
