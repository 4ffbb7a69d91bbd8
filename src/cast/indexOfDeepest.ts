/** @returns the first scan of the greatest pressure, where the package turned; 0 without pressure */
export function indexOfDeepest(pressure: Float64Array): number {
  let deepest = -1;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < pressure.length; i++) {
    if (pressure[i]! > greatest) {
      greatest = pressure[i]!;
      deepest = i;
    }
  }
  return Math.max(0, deepest);
}
