import { Matrix, QrDecomposition } from "ml-matrix";
import { expect, test } from "vitest";
import { triangularise } from "../../src/statistics/triangularise.js";
import { seeded } from "../evidence/seeded.js";

const random = seeded(4);
const columnsOf = (rows: number, columns: number) =>
  Array.from({ length: columns }, () => Float64Array.from({ length: rows }, () => random.normal()));

test("gives the triangular factor of ml-matrix, but for the signs of its rows", () => {
  for (const [rows, count] of [
    [1, 1],
    [5, 5],
    [60, 12],
  ] as const) {
    const columns = columnsOf(rows, count);
    const upper = new QrDecomposition(
      new Matrix(columns.map((column) => Array.from(column))).transpose(),
    ).upperTriangularMatrix;
    triangularise(columns);
    for (let i = 0; i < count; i++) {
      const sign = Math.sign(columns[i]![i]! * upper.get(i, i));
      for (let j = 0; j < count; j++) {
        expect(columns[j]![i]).toBeCloseTo(j < i ? 0 : sign * upper.get(i, j), 12);
      }
    }
  }
});

test("zero columns and dependent columns leave zeros on the diagonal", () => {
  const [a, b] = columnsOf(7, 2) as [Float64Array, Float64Array];
  const columns = [a, new Float64Array(7), a.slice(), b];
  const squares = columns.map((column) => column.reduce((sum, x) => sum + x * x, 0));
  triangularise(columns);
  for (const [j, column] of columns.entries()) {
    // Reflections keep lengths.
    expect(column.reduce((sum, x) => sum + x * x, 0)).toBeCloseTo(squares[j]!, 12);
    for (let i = j + 1; i < 7; i++) expect(column[i]).toBe(0);
  }
  expect(columns[2]![2]).toBeCloseTo(0, 12);
});
