import {
  PRESSURE_UNIT,
  SALINITY_UNIT,
  salt,
  TEMPERATURE_UNIT,
  water,
} from "../coefficientsGibbsSeawater.js";
import { HEAT_CAPACITY, ZERO_CELSIUS } from "../constants.js";
import { firstPt0Coefficients } from "../firstPt0.js";
import {
  type Formula,
  input,
  minus,
  over,
  plus,
  polynomial,
  squareRoot,
  times,
} from "./formula.js";
import { type Kernel, kernelOf } from "./kernel.js";

let pt0: Kernel | undefined | null = null;
let ct: Kernel | undefined | null = null;

/** Potential temperature of the columns sa, t, p: two Newton steps, as in `pt0FromT`. */
export function pt0Kernel(): Kernel | undefined {
  if (pt0 === null) pt0 = kernelOf(pt0Formula(), 3);
  return pt0;
}

/** Conservative Temperature of the columns sa, t, p: the expansion described at `ctFromT`. */
export function ctKernel(): Kernel | undefined {
  if (ct === null) ct = kernelOf(ctFormula(), 3);
  return ct;
}

function pt0Formula(): Formula {
  const { first, slope, atSurface } = gibbsFormulas();
  const step = (near: Formula): Formula => {
    const { slope: own, curvature } = atSurface(near);
    return plus(near, over(minus(slope, own), curvature));
  };
  return times(TEMPERATURE_UNIT, step(step(first)));
}

/** With T d(eta) = dh and entropy -dg/dt: h = g - T slope - (slope - own slope)^2 / (2 curvature), all per unit of y. */
function ctFormula(): Formula {
  const { first, slope, atSurface } = gibbsFormulas();
  const { gibbs, slope: own, curvature } = atSurface(first);
  const kelvin = plus(first, ZERO_CELSIUS / TEMPERATURE_UNIT);
  const difference = minus(slope, own);
  const second = over(times(difference, difference), times(2, curvature));
  return times(1 / HEAT_CAPACITY, minus(minus(gibbs, times(kelvin, slope)), second));
}

/**
 * From the columns sa, t, p, in units of y: a temperature close to the potential temperature, the slope of the Gibbs
 * function with y in place, and the Gibbs function at 0 dbar with its slope and curvature at any y. All exclude the ln x
 * terms.
 */
function gibbsFormulas() {
  const [sa, t, p] = [input(0), input(1), input(2)];
  const x2 = times(sa, 1 / SALINITY_UNIT);
  const x = squareRoot(x2);
  const y = times(t, 1 / TEMPERATURE_UNIT);
  const z = times(p, 1 / PRESSURE_UNIT);

  /** n times the coefficient of y^j z^k; undefined if it is 0. */
  const term = (j: number, k: number, n: number): (Formula | number)[] => {
    const fresh = water[k]?.[j];
    const saline = salt[k]?.[j];
    if (fresh === undefined) return [];
    if (saline === undefined) return [n * fresh];
    const inSalt = saline.map((s) => n * s);
    return [plus(n * fresh, times(x2, polynomial(x, inSalt)))];
  };
  const powers = [1, 2, 3, 4, 5, 6, 7];
  const atZero = powers.flatMap((j) => term(j, 0, j));
  const inPlace = powers.map((j) =>
    polynomial(z, [atZero[j - 1]!, ...[1, 2, 3, 4, 5].flatMap((k) => term(j, k, j))]),
  );
  const atSurface = (near: Formula) => ({
    gibbs: polynomial(near, [...term(0, 0, 1), ...powers.map((j) => times(atZero[j - 1]!, 1 / j))]),
    slope: polynomial(near, atZero),
    curvature: polynomial(
      near,
      powers.slice(1).map((j) => times(atZero[j - 1]!, j - 1)),
    ),
  });

  const s = times(sa, 1 / 40);
  const first = plus(
    y,
    times(
      z,
      polynomial(
        z,
        firstPt0Coefficients.map((rows) =>
          polynomial(
            y,
            rows.map((row) =>
              polynomial(
                s,
                row.map((a) => a / TEMPERATURE_UNIT),
              ),
            ),
          ),
        ),
      ),
    ),
  );
  return { first, slope: polynomial(y, inPlace), atSurface };
}
