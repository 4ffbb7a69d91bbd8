import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import fc from "fast-check";
import { afterEach, describe, expect, it, vi } from "vitest";
import * as seawater from "../../src/seawater/index.js";

const { spFromC, spFromCColumn, ctFromTColumn, pt0FromTColumn, sigma0Column, rhoColumn } = seawater;

/** Columns of a given length that hold ocean, brackish and missing values. */
function columns(rows: number) {
  const column = (value: (i: number) => number) =>
    Float64Array.from({ length: rows }, (_, i) => value(i));
  return {
    c: column((i) => (i % 97 === 13 ? Number.NaN : 45 + 20 * Math.sin(i / 7))),
    brackish: column((i) => 2.5 + 2.5 * Math.sin(i)),
    sa: column((i) => (i % 89 === 5 ? Number.NaN : 21 + 20 * Math.sin(i / 3))),
    t: column((i) => 16 + 18 * Math.cos(i / 11)),
    p: column((i) => 5000 + 5000 * Math.sin(i / 500)),
  };
}

/** Rows in which two columns differ by this or more, or of which only one is NaN. */
const apart = (found: Float64Array, expected: Float64Array, tolerance: number) =>
  [...found.keys()].filter((i) => {
    const [a, b] = [found[i]!, expected[i]!];
    return Number.isNaN(b) ? !Number.isNaN(a) : !(Math.abs(a - b) < tolerance);
  });

const lengths = [0, 1, 2, 3, 1023, 1024, 1025, 2047, 2048, 5000];

describe("a column function", () => {
  for (const rows of lengths)
    it(`gives ${rows} rows the values that they have one by one`, () => {
      const { c, brackish, sa, t, p } = columns(rows);
      const one = (f: (i: number) => number) => Float64Array.from({ length: rows }, (_, i) => f(i));
      expect(spFromCColumn(c, t, p)).toEqual(one((i) => spFromC(c[i]!, t[i]!, p[i]!)));
      expect(spFromCColumn(brackish, t, p)).toEqual(
        one((i) => spFromC(brackish[i]!, t[i]!, p[i]!)),
      );
      const close = (found: Float64Array, expected: Float64Array, tolerance: number) =>
        expect(apart(found, expected, tolerance)).toEqual([]);
      close(
        ctFromTColumn(sa, t, p),
        one((i) => seawater.ctFromT(sa[i]!, t[i]!, p[i]!)),
        1e-12,
      );
      close(
        pt0FromTColumn(sa, t, p),
        one((i) => seawater.pt0FromT(sa[i]!, t[i]!, p[i]!)),
        1e-12,
      );
      close(
        sigma0Column(sa, t),
        one((i) => seawater.sigma0(sa[i]!, t[i]!)),
        1e-11,
      );
      close(
        rhoColumn(sa, t, p),
        one((i) => seawater.rho(sa[i]!, t[i]!, p[i]!)),
        1e-11,
      );
    });

  it("a column function writes into the given buffer and returns it", () => {
    const { c, t, p } = columns(3000);
    const out = new Float64Array(3000);
    expect(spFromCColumn(c, t, p, out)).toBe(out);
    expect(out).toEqual(spFromCColumn(c, t, p));
  });

  it("a column function may overwrite one of its inputs", () => {
    const { brackish, sa, t, p } = columns(3000);
    const expectedSp = spFromCColumn(brackish, t, p);
    const expectedCt = ctFromTColumn(sa, t, p);
    expect(spFromCColumn(brackish, t, p, brackish)).toEqual(expectedSp);
    expect(ctFromTColumn(sa, t, p, t)).toEqual(expectedCt);
  });

  it("a column function does not change its inputs", () => {
    const { c, t, p } = columns(2000);
    const before = [c.slice(), t.slice(), p.slice()];
    spFromCColumn(c, t, p);
    expect([c, t, p]).toEqual(before);
  });

  it("columns of different length are refused with their lengths", () => {
    const [two, three] = [new Float64Array(2), new Float64Array(3)];
    expect(() => spFromCColumn(two, three, two)).toThrow(
      new RangeError("columns must have one length: found 3 beside 2"),
    );
    expect(() => spFromCColumn(two, two, three)).toThrow(RangeError);
    expect(() => ctFromTColumn(two, two, two, three)).toThrow(RangeError);
    expect(() => sigma0Column(two, three)).toThrow(RangeError);
    expect(() => seawater.srFromSpColumn(two, three)).toThrow(RangeError);
  });

  it("a negative salinity or conductivity gives NaN in its own row", () => {
    const bad = Float64Array.of(35, -1, 35, 35);
    const ten = new Float64Array(4).fill(10);
    for (const found of [
      spFromCColumn(bad, ten, ten),
      ctFromTColumn(bad, ten, ten),
      pt0FromTColumn(bad, ten, ten),
      sigma0Column(bad, ten),
      rhoColumn(bad, ten, ten),
    ])
      expect(Array.from(found, Number.isNaN)).toEqual([false, true, false, false]);
  });

  it("gives for any numbers the same results as one by one", () => {
    const any = fc.double({ min: -1e6, max: 1e6 });
    fc.assert(
      fc.property(fc.array(fc.tuple(any, any, any), { minLength: 1, maxLength: 40 }), (rows) => {
        const [c, t, p] = [0, 1, 2].map((k) => Float64Array.from(rows, (row) => row[k]!)) as [
          Float64Array,
          Float64Array,
          Float64Array,
        ];
        expect(spFromCColumn(c, t, p)).toEqual(Float64Array.from(rows, (row) => spFromC(...row)));
      }),
      { seed: 5, numRuns: 500 },
    );
  });
});

/** A second copy of the seawater modules, which has compiled nothing yet. Other test files share the first one. */
async function freshCopy(): Promise<
  typeof seawater & { salinityKernel: () => object | undefined }
> {
  const { outputFiles } = await build({
    stdin: {
      contents: `export * from "./index.ts"; export * from "./columns/salinityKernel.ts";`,
      resolveDir: fileURLToPath(new URL("../../src/seawater", import.meta.url)),
    },
    bundle: true,
    format: "esm",
    write: false,
  });
  const code = Buffer.from(outputFiles[0]!.contents).toString("base64");
  return import(/* @vite-ignore */ `data:text/javascript;base64,${code}`);
}

describe("a host without WebAssembly", () => {
  afterEach(() => {
    vi.unstubAllGlobals();
  });

  it("gets the same columns from the plain loops", async () => {
    const { c, sa, t, p } = columns(2500);
    const withVectors = [
      spFromCColumn(c, t, p),
      ctFromTColumn(sa, t, p),
      pt0FromTColumn(sa, t, p),
      sigma0Column(sa, t),
      rhoColumn(sa, t, p),
    ];
    const plain = await freshCopy();
    vi.stubGlobal("WebAssembly", undefined);
    expect(plain.salinityKernel()).toBeUndefined();
    const without = [
      plain.spFromCColumn(c, t, p),
      plain.ctFromTColumn(sa, t, p),
      plain.pt0FromTColumn(sa, t, p),
      plain.sigma0Column(sa, t),
      plain.rhoColumn(sa, t, p),
    ];
    expect(without[0]).toEqual(withVectors[0]);
    without.forEach((column, k) => {
      expect(apart(column, withVectors[k]!, 1e-11)).toEqual([]);
    });
  });
});

describe("the vector kernels of this host", () => {
  it("are there, so that the columns above were computed with them", async () => {
    const { salinityKernel } = await import("../../src/seawater/columns/salinityKernel.js");
    expect(salinityKernel()).toBeDefined();
  });
});
