// The usual way: offset and slope with pressure by least squares over a group of stations, bottles beyond 2.8 standard
// deviations rejected until none goes [McTaggartEtAl2010].

export interface GroupResidual {
  /** dbar. */
  readonly pressure: number;
  /** ppm. */
  readonly value: number;
}

const rejectBeyond = 2.8;

/** @returns the gain, ppm, as a function of pressure, dbar */
export function stationGroupFit(residuals: readonly GroupResidual[]): (pressure: number) => number {
  const count = residuals.length;
  const mean = (of: (residual: GroupResidual) => number) =>
    residuals.reduce((sum, residual) => sum + of(residual), 0) / count;
  const centre = mean(({ pressure }) => pressure);
  const level = mean(({ value }) => value);
  const spread = mean(({ pressure }) => (pressure - centre) ** 2);
  const slope =
    spread > 0 ? mean(({ pressure, value }) => (pressure - centre) * (value - level)) / spread : 0;
  const line = (pressure: number) => level + slope * (pressure - centre);
  const sd = Math.sqrt(
    residuals.reduce((sum, { pressure, value }) => sum + (value - line(pressure)) ** 2, 0) /
      Math.max(1, count - 2),
  );
  const kept = residuals.filter(
    ({ pressure, value }) => Math.abs(value - line(pressure)) <= rejectBeyond * sd,
  );
  return kept.length === count || kept.length < 3 ? line : stationGroupFit(kept);
}
