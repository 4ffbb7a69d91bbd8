import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { BadInput } from "../../../src/read/badInput.js";
import { software } from "../../../src/software.js";
import { openCruise } from "../../../src/verdict/carry/carriedCruise.js";
import { crc32 } from "../../../src/verdict/carry/crc32.js";
import { fromPlainJson, toPlainJson } from "../../../src/verdict/carry/plainJson.js";
import { readState, writeState } from "../../../src/verdict/carry/stateText.js";

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

  it("are written once where they are met twice, and are one value again", () => {
    const one = { values: Float64Array.of(1, 2, 3) };
    const { a, b } = throughText({ a: one, b: [one] }) as { a: unknown; b: unknown[] };
    expect(a).toEqual(one);
    expect(b[0]).toBe(a);
  });

  it("refuse values that are not plain", () => {
    expect(() => toPlainJson({ of: () => 1 })).toThrow(TypeError);
    expect(() => toPlainJson(new Date(0))).toThrow(TypeError);
    expect(() => fromPlainJson({ shared: [], value: { "~": 3 } })).toThrow(TypeError);
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

  it("is refused if one character of it was changed", () => {
    const changed = text.replace("invented", "imagined");
    expect(changed).not.toBe(text);
    expect(faultOf(changed)?.column).toBe("checksum");
  });

  it("is refused by name for another format or software version", () => {
    expect(faultOf(text.replace("foulcast-state/1", "foulcast-state/7"))).toMatchObject({
      column: "format",
      found: '"foulcast-state/7"',
    });
    const older = text.replace(`"version":"${software.version}"`, '"version":"0.0.1"');
    expect(faultOf(older)).toMatchObject({ column: "software", found: "foulcast 0.0.1" });
    expect(faultOf("[]")?.column).toBe("format");
    expect(faultOf("null")?.column).toBe("format");
  });
});
