// Readings that can be true of water that a ship lowers a package into, whatever the cast.

type Limits = readonly [least: number, most: number];

/**
 * Fill values such as -999, -9.99 or 1e35 lie outside, and so do a conductivity of zero in the water, boiling and
 * frozen water, and the deepest trench (judgement; the freshest seas read 0.1 mS/cm, the saltiest warm ones about 85).
 */
export const believableLimits = {
  conductivity_mS_cm: [0.01, 110],
  temperature_C: [-4, 60],
  pressure_dbar: [-20, 12000],
} as const satisfies Record<string, Limits>;

export function isBelievable(value: number, [least, most]: Limits): boolean {
  return value > least && value < most;
}

/** The column with NaN for what cannot be true; the column itself where all can. */
export function believableColumn(column: Float64Array, limits: Limits): Float64Array {
  if (column.every((value) => isBelievable(value, limits))) return column;
  return column.map((value) => (isBelievable(value, limits) ? value : Number.NaN));
}
