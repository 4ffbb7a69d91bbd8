// Readings that are possible in any water into which a ship lowers a package.

type Limits = readonly [least: number, most: number];

/**
 * These limits exclude fill values such as -999, -9.99 or 1e35, zero conductivity in the water, boiling and frozen water,
 * and pressures beyond the deepest trench (judgement; the freshest seas read 0.1 mS/cm, the saltiest warm ones about 85).
 */
export const believableLimits = {
  conductivity_mS_cm: [0.01, 110],
  temperature_C: [-4, 60],
  pressure_dbar: [-20, 12000],
} as const satisfies Record<string, Limits>;

export function isBelievable(value: number, [least, most]: Limits): boolean {
  return value > least && value < most;
}

/** The column with NaN for impossible readings; the column itself if all are possible. */
export function believableColumn(column: Float64Array, limits: Limits): Float64Array {
  if (column.every((value) => isBelievable(value, limits))) return column;
  return column.map((value) => (isBelievable(value, limits) ? value : Number.NaN));
}
