// The thermal lag that a cell with water pumped through it usually has [MorisonEtAl1994].

export interface CellLag {
  /** Amplitude, no unit. */
  readonly alpha: number;
  /** Time constant, s. */
  readonly tau_s: number;
}

export const usualLag: CellLag = { alpha: 0.0245, tau_s: 9.5 };
