import { a, b, C3515, c, d, e, k } from "../coefficientsPss78.js";
import { T68_PER_T90 } from "../temperatureScales.js";
import { input, minus, over, plus, polynomial, squareRoot, times } from "./formula.js";
import { type Kernel, kernelOf } from "./kernel.js";

let kernel: Kernel | undefined | null = null;

/** PSS-78 of the columns c, t, p, with the same operations as `spFromC`, without the extension below 2. */
export function salinityKernel(): Kernel | undefined {
  if (kernel === null) kernel = kernelOf(pss78OfConductivity(), 3);
  return kernel;
}

function pss78OfConductivity() {
  const [conductivity, t, p] = [input(0), input(1), input(2)];
  const t68 = times(t, T68_PER_T90);
  const dt = minus(t68, 15);
  const ft = over(dt, plus(1, times(k, dt)));
  const ratio = times(conductivity, 1 / C3515);
  const rpDivisor = plus(
    polynomial(t68, [1, d[0], d[1]]),
    times(polynomial(t68, [d[2], d[3]]), ratio),
  );
  const rtRp = times(polynomial(t68, c), plus(rpDivisor, times(p, polynomial(p, e))));
  const rt = over(times(ratio, rpDivisor), rtRp);
  const terms = a.map((ai, i) => plus(ai, times(ft, b[i]!)));
  const even = terms.filter((_, i) => i % 2 === 0);
  const odd = terms.filter((_, i) => i % 2 === 1);
  return plus(polynomial(rt, even), times(squareRoot(rt), polynomial(rt, odd)));
}
