import { describe, expect, it } from "vitest";
import {
  cFromSp,
  cFromSpColumn,
  ctFreezing,
  ctFromPt,
  ctFromT,
  ctFromTColumn,
  pt0FromT,
  pt0FromTColumn,
  ptFromCt,
  ptFromT,
  rho,
  rhoColumn,
  sigma0,
  sigma0Column,
  spFromC,
  spFromCColumn,
  spFromCFirstDerivatives,
  spFromSr,
  srFromSp,
  srFromSpColumn,
  tFreezing,
  tFromCt,
} from "../../src/seawater/index.js";
import { gridFile, largestDifference, sharedGridExists, sharedGridPath } from "./gridFile.js";

type Grid = Record<string, Float64Array>;
type Check = [fact: string, found: (g: Grid) => Float64Array, expected: string, tolerance: number];

const each = (n: number, value: (i: number) => number) =>
  Float64Array.from({ length: n }, (_, i) => value(i));
const of = (g: Grid, name: string) => g[name]!;
const n = (g: Grid) => of(g, "SP").length;
const at = (g: Grid, name: string, i: number) => g[name]![i]!;

// Values of the TEOS-10 reference code; see fixtures/gsw-grid/README.md.
const checks: Check[] = [
  [
    "SP from C",
    (g) => each(n(g), (i) => spFromC(at(g, "C", i), at(g, "t", i), at(g, "p", i))),
    "SP",
    1e-12,
  ],
  [
    "C from SP",
    (g) => each(n(g), (i) => cFromSp(at(g, "SP", i), at(g, "t", i), at(g, "p", i))),
    "C",
    1e-12,
  ],
  ["SR from SP", (g) => each(n(g), (i) => srFromSp(at(g, "SP", i))), "SR", 1e-13],
  ["SP from SR", (g) => each(n(g), (i) => spFromSr(at(g, "SR", i))), "SP", 1e-13],
  [
    "CT from t",
    (g) => each(n(g), (i) => ctFromT(at(g, "SR", i), at(g, "t", i), at(g, "p", i))),
    "CT",
    3e-12,
  ],
  [
    "pt0 from t",
    (g) => each(n(g), (i) => pt0FromT(at(g, "SR", i), at(g, "t", i), at(g, "p", i))),
    "pt0",
    1e-12,
  ],
  ["CT from pt0", (g) => each(n(g), (i) => ctFromPt(at(g, "SR", i), at(g, "pt0", i))), "CT", 1e-12],
  ["pt0 from CT", (g) => each(n(g), (i) => ptFromCt(at(g, "SR", i), at(g, "CT", i))), "pt0", 1e-12],
  [
    "t from CT",
    (g) => each(n(g), (i) => tFromCt(at(g, "SR", i), at(g, "CT", i), at(g, "p", i))),
    "t",
    1e-12,
  ],
  ["sigma0", (g) => each(n(g), (i) => sigma0(at(g, "SR", i), at(g, "CT", i))), "sigma0", 2e-12],
  [
    "rho",
    (g) => each(n(g), (i) => rho(at(g, "SR", i), at(g, "CT", i), at(g, "p", i))),
    "rho",
    2e-12,
  ],
  [
    "the freezing temperature",
    (g) => each(n(g), (i) => tFreezing(at(g, "SR", i), at(g, "p", i), 0)),
    "t_freezing",
    1e-11,
  ],
  [
    "the freezing CT",
    (g) => each(n(g), (i) => ctFreezing(at(g, "SR", i), at(g, "p", i), 0)),
    "CT_freezing",
    1e-11,
  ],
  [
    "the column of SP from C",
    (g) => spFromCColumn(of(g, "C"), of(g, "t"), of(g, "p")),
    "SP",
    1e-12,
  ],
  [
    "the column of C from SP",
    (g) => cFromSpColumn(of(g, "SP"), of(g, "t"), of(g, "p")),
    "C",
    1e-12,
  ],
  ["the column of SR from SP", (g) => srFromSpColumn(of(g, "SP")), "SR", 1e-13],
  [
    "the column of CT from t",
    (g) => ctFromTColumn(of(g, "SR"), of(g, "t"), of(g, "p")),
    "CT",
    3e-12,
  ],
  [
    "the column of pt0 from t",
    (g) => pt0FromTColumn(of(g, "SR"), of(g, "t"), of(g, "p")),
    "pt0",
    1e-12,
  ],
  ["the column of sigma0", (g) => sigma0Column(of(g, "SR"), of(g, "CT")), "sigma0", 2e-12],
  ["the column of rho", (g) => rhoColumn(of(g, "SR"), of(g, "CT"), of(g, "p")), "rho", 2e-12],
  [
    "SP back from the C of SP",
    (g) =>
      spFromCColumn(cFromSpColumn(of(g, "SP"), of(g, "t"), of(g, "p")), of(g, "t"), of(g, "p")),
    "SP",
    1e-12,
  ],
];

describe("the TEOS-10 reference code at 202 points, salinity 0.2 to 42, -2 to 35 degree C, 0 to 10,000 dbar", () => {
  const grid = gridFile("fixtures/gsw-grid/grid.csv");
  for (const [fact, found, expected, tolerance] of checks)
    it(`${fact} agrees within ${tolerance}`, () => {
      expect(n(grid)).toBe(202);
      expect(largestDifference(found(grid), of(grid, expected))).toBeLessThan(tolerance);
    });

  it("potential temperature referred to 1000 dbar agrees within 1e-12", () => {
    const found = each(n(grid), (i) =>
      ptFromT(at(grid, "SR", i), at(grid, "t", i), at(grid, "p", i), 1000),
    );
    expect(largestDifference(found, of(grid, "pt1000"))).toBeLessThan(1e-12);
  });

  it("the freezing temperature of air-saturated water agrees within 1e-11", () => {
    const found = each(n(grid), (i) => tFreezing(at(grid, "SR", i), at(grid, "p", i), 1));
    expect(largestDifference(found, of(grid, "t_freezing_saturated"))).toBeLessThan(1e-11);
  });
});

describe.skipIf(!sharedGridExists)(
  `the 2020-point grid ${sharedGridPath} (skipped where that file is absent)`,
  () => {
    const grid = sharedGridExists ? gridFile(sharedGridPath) : {};
    for (const [fact, found, expected, tolerance] of checks)
      it(`${fact} agrees within ${tolerance}`, () => {
        expect(n(grid)).toBe(2020);
        expect(largestDifference(found(grid), of(grid, expected))).toBeLessThan(tolerance);
      });

    // Central differences of the same equations at 60 digits; see the first line of the file.
    for (const [name, key] of [
      ["dSP_dC", "dSpDc"],
      ["dSP_dt", "dSpDt"],
      ["dSP_dp", "dSpDp"],
    ] as const)
      it(`${name} agrees within 1e-12 relative, below salinity 2 as well`, () => {
        const found = each(
          n(grid),
          (i) =>
            spFromCFirstDerivatives(at(grid, "C", i), at(grid, "t", i), at(grid, "p", i))[key] /
            at(grid, name, i),
        );
        expect(largestDifference(found, new Float64Array(n(grid)).fill(1))).toBeLessThan(1e-12);
      });
  },
);
