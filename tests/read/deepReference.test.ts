import { describe, expect, it } from "vitest";
import { readDeepReference } from "../../src/read/deepReferenceCsv.js";
import { faultsOf } from "./faultsOf.js";

const file = "deep.csv";
const heading = "potential_temperature_C,salinity,standard_uncertainty";
/** Invented water. */
const rows = [
  "1.2,34.71,",
  "0.8,34.708,0.0005",
  "0.9,34.709,",
  "1.0,34.7095,",
  "1.1,34.7098,",
  "1.3,34.711,0.002",
];
const textOf = (lines: readonly string[]) => [heading, ...lines].join("\n");

describe("a reference table for deep water", () => {
  it("a reference table is sorted by temperature, and rows may lack an uncertainty", () => {
    const { rows: read, input } = readDeepReference(textOf(rows), { file });
    expect([...read.potentialTemperature_C]).toEqual([0.8, 0.9, 1, 1.1, 1.2, 1.3]);
    expect([...read.salinity]).toEqual([34.708, 34.709, 34.7095, 34.7098, 34.71, 34.711]);
    expect([...read.rowUncertainty]).toEqual([
      0.0005,
      Number.NaN,
      Number.NaN,
      Number.NaN,
      Number.NaN,
      0.002,
    ]);
    expect(input).toMatchObject({ name: file, role: "reference", rows: 6, leftOut: [] });
  });

  it("a reference table without a column of uncertainties is read", () => {
    const bare = [
      "potential_temperature_C,salinity",
      ...rows.map((row) => row.split(",").slice(0, 2).join(",")),
    ];
    expect([...readDeepReference(bare.join("\n"), { file }).rows.rowUncertainty]).toEqual(
      Array(6).fill(Number.NaN),
    );
  });

  it.each([
    ["a row that is no number", [...rows, "1.4,salt,"], { line: 8, column: "salinity" }],
    ["a salinity that is a conductivity", [...rows, "1.4,53,"], { line: 8, column: "salinity" }],
    [
      "a temperature in kelvin",
      [...rows, "274.3,34.7,"],
      { line: 8, column: "potential_temperature_C" },
    ],
    ["a missing salinity", [...rows, "1.4,,"], { line: 8, column: "salinity" }],
    [
      "a negative uncertainty",
      [...rows, "1.4,34.7,-0.1"],
      { line: 8, column: "standard_uncertainty" },
    ],
    [
      "a temperature twice",
      [...rows, "1.2,34.712,"],
      { line: 8, column: "potential_temperature_C" },
    ],
    ["too few rows", rows.slice(0, 5), { line: 0, found: "5 rows" }],
  ])("refuses %s, and says where", (_, lines, fault) => {
    expect(faultsOf(() => readDeepReference(textOf(lines), { file }))).toEqual([
      expect.objectContaining({ file, ...fault }),
    ]);
  });

  it("a reference table without salinity is refused by the name of the column", () => {
    const faults = faultsOf(() => readDeepReference("potential_temperature_C\n1.2", { file }));
    expect(faults).toEqual([expect.objectContaining({ column: "salinity", line: 1 })]);
  });
});
