// Reduce many observations of a few coefficients by QR to a few rows with the same likelihood. The filter updates hundreds
// of proposals on every cast, and there are many more bottles and layers than coefficients.
import type { Rows } from "../model/rows.js";
import { triangularise } from "../statistics/triangularise.js";

/**
 * The same likelihood in fewer rows; exact for independent normal errors.
 * @returns the given rows if they are already few
 */
export function compress(given: Rows): Rows {
  const { rows, values, variances } = given;
  const size = rows[0]?.length ?? 0;
  const active = Array.from({ length: size }, (_, j) => j).filter((j) =>
    rows.some((row) => row[j] !== 0),
  );
  if (rows.length <= active.length + 1) return given;
  const whitened = [...active, size].map(() => new Float64Array(rows.length));
  const value = whitened[active.length]!;
  const precision = variances.map((variance) => 1 / Math.sqrt(variance));
  for (let k = 0; k < active.length; k++) {
    const column = whitened[k]!;
    const j = active[k]!;
    for (let i = 0; i < rows.length; i++) column[i] = rows[i]![j]! * precision[i]!;
  }
  for (let i = 0; i < rows.length; i++) value[i] = values[i]! * precision[i]!;
  triangularise(whitened);
  const rest = value[active.length]!;
  const logDeterminant = variances.reduce((sum, variance) => sum + Math.log(variance), 0);
  return {
    rows: active.map((_, i) => {
      const row = new Float64Array(size);
      for (let k = i; k < active.length; k++) row[active[k]!] = whitened[k]![i]!;
      return row;
    }),
    values: active.map((_, i) => value[i]!),
    variances: active.map(() => 1),
    logConstant:
      given.logConstant -
      0.5 * (logDeterminant + rest * rest) -
      0.5 * (rows.length - active.length) * Math.log(2 * Math.PI),
  };
}
