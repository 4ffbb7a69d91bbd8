/**
 * Potential temperature minus in-situ temperature, K, in powers of SA / 40 g/kg, t / 40 degree C and p / 10^4 dbar. There
 * is a block for each power of p from 1, in it a row for each power of t from 0, with powers of SA ascending from 0. Our
 * own least-squares fit to `pt0FromT` at SA 0 to 45, t -3 to 40 and p 0 to 11,500, within 0.01 K there.
 */
export const firstPt0Coefficients = [
  [[0.43424, -0.96973, 0.10031], [-4.1892, 1.1555, -0.18166], [1.1248, -0.34293], [-0.2308]],
  [[-1.2252, 0.3036, 0.0096568], [1.3785, -0.18506], [-0.29978]],
  [[0.27168, -0.062682], [-0.18582]],
  [[-0.021767]],
] as const;

const [block1, block2, [[a003, a103], [a013]], [[a004]]] = firstPt0Coefficients;
const [[a001, a101, a201], [a011, a111, a211], [a021, a121], [a031]] = block1;
const [[a002, a102, a202], [a012, a112], [a022]] = block2;

/** First value of potential temperature, degree C, for the iteration: see `firstPt0Coefficients`. */
export function firstPt0(sa: number, t: number, p: number): number {
  const s = sa / 40;
  const y = t / 40;
  const z = p / 1e4;
  const z1 =
    a001 +
    s * (a101 + s * a201) +
    y * (a011 + s * (a111 + s * a211) + y * (a021 + s * a121 + y * a031));
  const z2 = a002 + s * (a102 + s * a202) + y * (a012 + s * a112 + y * a022);
  const z3 = a003 + s * a103 + y * a013;
  return t + z * (z1 + z * (z2 + z * (z3 + z * a004)));
}
