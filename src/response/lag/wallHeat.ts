// The first-order response of the water in the cell to a change of temperature outside [LueckPicklo1990].

/** From one place on a leg to the next. */
interface Passage {
  /** Seconds of standing before the package moved on, and seconds of motion. */
  readonly standing_s: number;
  readonly moving_s: number;
  /** Change of the temperature outside during the motion, K. */
  readonly change_K: number;
}

/** Time standing and time moving: the time beyond the usual rate was a stop. */
export function standingAndMoving(
  elapsed_s: number,
  way_dbar: number,
  rate_dbar_s: number,
): Pick<Passage, "standing_s" | "moving_s"> {
  // Half the usual rate still counts as motion, because winches slow down.
  const moving_s = Math.min(Math.max(0, elapsed_s), (2 * way_dbar) / rate_dbar_s);
  return { standing_s: Math.max(0, elapsed_s - moving_s), moving_s };
}

/**
 * Exact for a steady change.
 * @param before temperature outside minus that in the cell over the amplitude, K, at the place before
 */
export function wallHeatAfter(
  before: number,
  { standing_s, moving_s, change_K }: Passage,
  tau_s: number,
): number {
  const stood = standing_s > 0 ? before * Math.exp(-standing_s / tau_s) : before;
  const ways = moving_s / tau_s;
  const kept = Math.exp(-ways);
  return stood * kept + change_K * (ways > 0 ? (1 - kept) / ways : 1);
}
