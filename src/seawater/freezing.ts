import {
  PRESSURE_UNIT,
  SALINITY_UNIT,
  salt,
  saltLogarithm,
  TEMPERATURE_UNIT,
  water,
} from "./coefficientsGibbsSeawater.js";
import { ctFromPt } from "./conservativeTemperature.js";
import { STANDARD_SALINITY } from "./constants.js";
import { entropyIce, gibbsIce } from "./gibbsIce.js";
import { pt0FromT } from "./potentialTemperature.js";

/**
 * In-situ freezing temperature of seawater.
 * @param sa                  Absolute Salinity, g/kg
 * @param p                   sea pressure, dbar
 * @param saturationFraction  saturation of the water with dissolved air: 0 no air, 1 saturated, as after contact with
 *                            the atmosphere
 * @returns  freezing temperature, ITS-90 degree C; NaN if an input is NaN or the salinity is negative
 *
 * The temperature at which the chemical potential of water in seawater is that of ice, found by Newton's method;
 * dissolved air lowers it by up to 2.4 mK. The equations hold to 120 g/kg and 10,000 dbar.
 * Source: [TEOS10], [IAPWS2006], [IAPWS2008], [IAPWS2009].
 * @example tFreezing(34.7118, 10, 0) // -1.9008242656810919
 */
export function tFreezing(sa: number, p: number, saturationFraction: number): number {
  // Within 0.3 K over the ocean's range: salt lowers it, and so does pressure, in proportion to the decibars.
  let t = -0.055 * sa - 7.6e-4 * p;
  for (let step = 0; step < 5; step++) {
    const excess = chemicalPotentialOfWater(sa, t, p) - gibbsIce(t, p);
    t -= excess / (chemicalPotentialOfWaterDt(sa, t, p) + entropyIce(t, p));
  }
  return t - saturationFraction * 1e-3 * (2.4 - sa / (2 * STANDARD_SALINITY));
}

/**
 * Conservative Temperature at which seawater freezes, degree C; arguments, limits and source as `tFreezing`.
 * @example ctFreezing(34.7118, 10, 0) // -1.897778698355318
 */
export function ctFreezing(sa: number, p: number, saturationFraction: number): number {
  return ctFromPt(sa, pt0FromT(sa, tFreezing(sa, p, saturationFraction), p));
}

/**
 * Specific chemical potential of water in seawater, g - SA dg/dSA, J/kg. A salt term of power i in x has the factor 1 -
 * i/2; of the x^2 ln x terms only -x^2/2 remains.
 */
function chemicalPotentialOfWater(sa: number, t: number, p: number): number {
  const x2 = sa / SALINITY_UNIT;
  const x = Math.sqrt(x2);
  const y = t / TEMPERATURE_UNIT;
  const z = p / PRESSURE_UNIT;
  return (
    polynomial(
      water.map((row) => polynomial(row, y)),
      z,
    ) -
    (x2 / 2) * polynomial(saltLogarithm, y) +
    x2 *
      polynomial(
        salt.map((rows) =>
          polynomial(
            rows.map((row) => withoutSalt(row, x)),
            y,
          ),
        ),
        z,
      )
  );
}

/** Its derivative with temperature, J/(kg K). */
function chemicalPotentialOfWaterDt(sa: number, t: number, p: number): number {
  const x2 = sa / SALINITY_UNIT;
  const x = Math.sqrt(x2);
  const y = t / TEMPERATURE_UNIT;
  const z = p / PRESSURE_UNIT;
  return (
    (polynomial(
      water.map((row) => slope(row, y)),
      z,
    ) -
      (x2 / 2) * slope(saltLogarithm, y) +
      x2 *
        polynomial(
          salt.map((rows) =>
            slope(
              rows.map((row) => withoutSalt(row, x)),
              y,
            ),
          ),
          z,
        )) /
    TEMPERATURE_UNIT
  );
}

/** Terms of x^2, x^3, ... minus SA times their derivative, over x^2. */
function withoutSalt(row: readonly number[], x: number): number {
  return polynomial(
    row.map((coefficient, i) => (-i / 2) * coefficient),
    x,
  );
}

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}

function slope(coefficients: readonly number[], x: number): number {
  return polynomial(
    coefficients.slice(1).map((coefficient, i) => (i + 1) * coefficient),
    x,
  );
}
