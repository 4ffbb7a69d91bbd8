// The rotation that a delay causes at each frequency.

export interface Phases {
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
}

/** @param omega evenly spaced from 0, so that each rotation is the one before times a constant */
export function phasesOf(omega: Float64Array, seconds: number): Phases {
  const cosine = new Float64Array(omega.length);
  const sine = new Float64Array(omega.length);
  const step = (omega[1] ?? 0) * seconds;
  const [c1, s1] = [Math.cos(step), Math.sin(step)];
  let [c, s] = [1, 0];
  for (let k = 0; k < omega.length; k++) {
    cosine[k] = c;
    sine[k] = s;
    const next = c * c1 - s * s1;
    s = s * c1 + c * s1;
    c = next;
  }
  return { cosine, sine };
}
