// The depths at which bottles are closed.
// Numbers without a source are judgement: the choices of an invented watch.

/** No bottle is closed shallower, dbar, or a share of a shallow cast. */
const shallowest = { dbar: 10, share: 0.1 };

/** Usual depths for this many bottles, deepest first, dbar: denser toward the surface (common practice, no source). */
export function bottleDepths(bottles: number, deepest_dbar: number): readonly number[] {
  const top = Math.min(shallowest.dbar, shallowest.share * deepest_dbar);
  return Array.from({ length: bottles }, (_, i) => {
    const part = bottles === 1 ? 1 : 1 - i / (bottles - 1);
    return Math.round(10 * (top + (deepest_dbar - top) * part ** 1.4)) / 10;
  });
}
