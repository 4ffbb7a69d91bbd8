// Prior of the thermal lag of a cell.

export interface CellLag {
  /** Amplitude, no unit. */
  readonly alpha: number;
  /** Time constant, s. */
  readonly tau_s: number;
}

/** A cell with a slow response: the longest of the published time constants [JohnsonEtAl2007]. */
export const slowestPublishedLag: CellLag = { alpha: 0.0245, tau_s: 18.6 };

/** A cell with water pumped through it [MorisonEtAl1994]. */
export const publishedLag: CellLag = { alpha: 0.0245, tau_s: 9.5 };

/** The lag with another time constant that has the usual effect in a steady gradient. */
export function usualLagAt(tau_s: number): CellLag {
  return { alpha: (publishedLag.alpha * publishedLag.tau_s) / tau_s, tau_s };
}

/**
 * Amplitude relative to the usual one, standard deviation about 1: legs that were corrected before show 0, a clogged line
 * three to five times the usual (judgement: five times is then 1.3 standard deviations from it).
 */
export const priorTimesUsual = 3;

/** Standard deviation of ln tau about the usual: published time constants are from 6.9 to 18.6 s [JohnsonEtAl2007]. */
export const priorLogTau = 0.4;

/**
 * The outer parts of a cell hold heat for longer than its wall. `tau_s` is the time constant of that. `share` is the standard
 * deviation of its effect in a steady gradient, as a share of the lag of the wall (both judgement). The fit of the lag does
 * not show it, because that fit uses short stretches.
 */
export const outerHeat = { tau_s: 50, share: 0.5 };
