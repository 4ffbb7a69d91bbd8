// The range of a column of pressure.

export interface PressureSpan {
  /** dbar; NaN for an empty column. */
  readonly shallowest: number;
  readonly deepest: number;
  /** Position of the first of the deepest; 0 for an empty column. */
  readonly turn: number;
}

/** @param pressure dbar, without NaN */
export function pressureSpan(pressure: Float64Array): PressureSpan {
  let turn = 0;
  let shallowest = pressure[0] ?? Number.NaN;
  let deepest = shallowest;
  for (let k = 1; k < pressure.length; k++) {
    const p = pressure[k]!;
    if (p < shallowest) shallowest = p;
    if (p > deepest) {
      deepest = p;
      turn = k;
    }
  }
  return { shallowest, deepest, turn };
}
