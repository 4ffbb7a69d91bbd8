// The volume of a solution that a cleaning needs.

/**
 * Volume of a solution to make up: every filling and a quarter in reserve, rounded up to 50 ml (judgement, both).
 * @param plumbing_ml one filling of the cell and its plumbing, ml
 * @returns ml
 * @example volumeNeeded_ml(60, 2) // 150
 */
export function volumeNeeded_ml(plumbing_ml: number, fills: number): number {
  return 50 * Math.ceil((1.25 * plumbing_ml * fills) / 50);
}
