// Random numbers that are the same at every run, for simulation in tests.

export interface Seeded {
  /** Uniform between 0 and 1. */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
}

/** Marsaglia's 32-bit xorshift with shifts 13, 17, 5 (J. Stat. Soft. 8(14), 2003); normals by Box and Muller. */
export function seeded(seed: number): Seeded {
  let state = (Math.imul(seed + 1, 0x9e3779b1) ^ 0x2545f491) >>> 0 || 1;
  const uniform = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) + 0.5) / 2 ** 32;
  };
  for (let i = 0; i < 20; i++) uniform();
  const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  return { uniform, normal };
}
