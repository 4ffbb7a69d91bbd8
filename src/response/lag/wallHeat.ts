// The first-order response of the water in the cell to a change of temperature outside [LueckPicklo1990].

/** Time standing and time moving: what exceeds the usual rate was a stop. */
export function standingAndMoving(
  elapsed_s: number,
  way_dbar: number,
  rate_dbar_s: number,
): { readonly standing_s: number; readonly moving_s: number } {
  // Half the usual rate still counts as moving: winches slow down.
  const moving_s = Math.min(Math.max(0, elapsed_s), (2 * way_dbar) / rate_dbar_s);
  return { standing_s: Math.max(0, elapsed_s - moving_s), moving_s };
}

/**
 * Exact for a steady change.
 * @param before     temperature outside less that in the cell over the amplitude, K, at the place before
 * @param standing_s that the package stood before it moved on
 * @param change_K   of the temperature outside while it moved
 */
export function wallHeatAfter(
  before: number,
  standing_s: number,
  moving_s: number,
  change_K: number,
  tau_s: number,
): number {
  const stood = standing_s > 0 ? before * Math.exp(-standing_s / tau_s) : before;
  const ways = moving_s / tau_s;
  const kept = Math.exp(-ways);
  return stood * kept + change_K * (ways > 0 ? (1 - kept) / ways : 1);
}
