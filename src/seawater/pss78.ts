import { a, b } from "./coefficientsPss78.js";

const [a0, a1, a2, a3, a4, a5] = a;
const [b0, b1, b2, b3, b4, b5] = b;

/**
 * The PSS-78 polynomial, without the extension below 2: [Lewis1980], [UNESCO1983].
 * @param rt  conductivity ratio Rt
 * @param x   its square root; even powers use rt, so that they do not depend on the root
 * @param ft  temperature factor (t68 - 15) / (1 + k (t68 - 15))
 */
export function pss78(rt: number, x: number, ft: number): number {
  const even = a0 + ft * b0 + rt * (a2 + ft * b2 + rt * (a4 + ft * b4));
  const odd = a1 + ft * b1 + rt * (a3 + ft * b3 + rt * (a5 + ft * b5));
  return even + x * odd;
}

/** Its derivative with x. */
export function pss78Dx(x: number, ft: number): number {
  return (
    a1 +
    ft * b1 +
    x *
      (2 * (a2 + ft * b2) +
        x * (3 * (a3 + ft * b3) + x * (4 * (a4 + ft * b4) + x * 5 * (a5 + ft * b5))))
  );
}

/** Its derivative with ft. */
export function pss78Dft(x: number): number {
  return b0 + x * (b1 + x * (b2 + x * (b3 + x * (b4 + x * b5))));
}
