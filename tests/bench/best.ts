/** How often a piece of work is repeated in each round. */
export const REPEATS = 15;

/** The least time of several repeats, ms: the machine may be shared, and others only ever make it slower. */
export function best(work: () => unknown, repeats = REPEATS): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k < repeats; k++) {
    const start = performance.now();
    work();
    least = Math.min(least, performance.now() - start);
  }
  return least;
}
