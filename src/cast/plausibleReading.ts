// Readings that are possible in any water into which a ship lowers a package.

interface Limits {
  readonly least: number;
  readonly most: number;
}

/** All made here, so that code that is compiled for one serves all. */
export function limitsOf(least: number, most: number): Limits {
  return { least, most };
}

/**
 * These limits exclude fill values such as -999, -9.99 or 1e35, zero conductivity in the water, boiling and frozen water,
 * and pressures beyond the deepest trench (judgement; the freshest seas read 0.1 mS/cm, the saltiest warm ones about 85).
 */
export const plausibleLimits = {
  conductivity_mS_cm: limitsOf(0.01, 110),
  temperature_C: limitsOf(-4, 60),
  pressure_dbar: limitsOf(-20, 12000),
};

export function isPlausible(value: number, { least, most }: Limits): boolean {
  return value > least && value < most;
}

/** The column with NaN for impossible readings; the column itself if all are possible. */
export function plausibleColumn(column: Float64Array, limits: Limits): Float64Array {
  const { least, most } = limits;
  let good = 0;
  while (good < column.length && column[good]! > least && column[good]! < most) good++;
  if (good === column.length) return column;
  return column.map((value) => (isPlausible(value, limits) ? value : Number.NaN));
}
