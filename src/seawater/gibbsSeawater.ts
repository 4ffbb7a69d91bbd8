import {
  PRESSURE_UNIT,
  SALINITY_UNIT,
  salt,
  TEMPERATURE_UNIT,
  water,
} from "./coefficientsGibbsSeawater.js";
import { ZERO_CELSIUS } from "./constants.js";

// gjk of pure water and sijk of sea salt, as constants of this module, so that the compiler writes their values into the
// code.
const [g00, g10, g20, g30, g40, g50, g60, g70] = water[0];
const [, g11, g21, g31, g41, g51, g61, g71] = water[1];
const [, g12, g22, g32, g42, g52, g62] = water[2];
const [, g13, g23, g33, g43, g53, g63] = water[3];
const [, g14, g24, g34, g44, g54] = water[4];
const [, g15, g25, g35] = water[5];
const [row0, row1, row2, row3, row4, row5, row6] = salt[0];
const [s200, s300, s400, s500, s600, s700] = row0;
const [s210, s310, s410, s510, s610] = row1;
const [s220, s320, s420] = row2;
const [s230, s330, s430] = row3;
const [s240, s340, s440] = row4;
const [s250, , s450] = row5;
const [s260] = row6;
const [, [s211, s311, s411], [s221, s321], [s231, s331], [s241, s341]] = salt[1];
const [, [s212, s312], [s222, s322], [s232], [s242]] = salt[2];
const [, [s213, s313], [s223, s323], [s233], [s243]] = salt[3];
const [, [s214], [s224], [s234]] = salt[4];
const [, [s215], [s225]] = salt[5];

const perTemperatureUnit = 1 / TEMPERATURE_UNIT;
const perSalinityUnit = 1 / SALINITY_UNIT;
const perPressureUnit = 1 / PRESSURE_UNIT;
const zeroCelsius = ZERO_CELSIUS;

/**
 * Specific entropy without the part that depends on salinity alone (the x^2 ln x term). This is sufficient to compare
 * parcels of one salinity, and finite in fresh water. J/(kg K).
 * @param sa  Absolute Salinity, g/kg
 * @param t   in-situ temperature, degree C
 * @param p   sea pressure, dbar
 * Source: -dg/dt of the Gibbs function, [IAPWS2008], [IAPWS2009].
 */
export function entropyPart(sa: number, t: number, p: number): number {
  const x2 = sa * perSalinityUnit;
  const x = Math.sqrt(x2);
  const y = t * perTemperatureUnit;
  const z = p * perPressureUnit;
  // qj is j times the coefficient of y^j in g.
  const q1 =
    g10 +
    x2 * (s210 + x * (s310 + x * (s410 + x * (s510 + x * s610)))) +
    z *
      (g11 +
        x2 * (s211 + x * (s311 + x * s411)) +
        z *
          (g12 +
            x2 * (s212 + x * s312) +
            z * (g13 + x2 * (s213 + x * s313) + z * (g14 + x2 * s214 + z * (g15 + x2 * s215)))));
  const q2 =
    2 *
    (g20 +
      x2 * (s220 + x * (s320 + x * s420)) +
      z *
        (g21 +
          x2 * (s221 + x * s321) +
          z *
            (g22 +
              x2 * (s222 + x * s322) +
              z * (g23 + x2 * (s223 + x * s323) + z * (g24 + x2 * s224 + z * (g25 + x2 * s225))))));
  const q3 =
    3 *
    (g30 +
      x2 * (s230 + x * (s330 + x * s430)) +
      z *
        (g31 +
          x2 * (s231 + x * s331) +
          z * (g32 + x2 * s232 + z * (g33 + x2 * s233 + z * (g34 + x2 * s234 + z * g35)))));
  const q4 =
    4 *
    (g40 +
      x2 * (s240 + x * (s340 + x * s440)) +
      z * (g41 + x2 * (s241 + x * s341) + z * (g42 + x2 * s242 + z * (g43 + x2 * s243 + z * g44))));
  const q5 = 5 * (g50 + x2 * (s250 + x2 * s450) + z * (g51 + z * (g52 + z * (g53 + z * g54))));
  const q6 = 6 * (g60 + x2 * s260 + z * (g61 + z * (g62 + z * g63)));
  const q7 = 7 * (g70 + z * g71);
  return -perTemperatureUnit * (q1 + y * (q2 + y * (q3 + y * (q4 + y * (q5 + y * (q6 + y * q7))))));
}

/**
 * Specific enthalpy at sea pressure 0, J/kg; the x^2 ln x terms of g and of its slope cancel.
 * @param sa  Absolute Salinity, g/kg
 * @param t   temperature at sea pressure 0, degree C
 * Source: g - T dg/dt of the Gibbs function, [IAPWS2008], [IAPWS2009].
 */
export function surfaceEnthalpy(sa: number, t: number): number {
  const x2 = sa * perSalinityUnit;
  const x = Math.sqrt(x2);
  const y = t * perTemperatureUnit;
  const q0 = g00 + x2 * (s200 + x * (s300 + x * (s400 + x * (s500 + x * (s600 + x * s700)))));
  const q1 = g10 + x2 * (s210 + x * (s310 + x * (s410 + x * (s510 + x * s610))));
  const q2 = g20 + x2 * (s220 + x * (s320 + x * s420));
  const q3 = g30 + x2 * (s230 + x * (s330 + x * s430));
  const q4 = g40 + x2 * (s240 + x * (s340 + x * s440));
  const q5 = g50 + x2 * (s250 + x2 * s450);
  const q6 = g60 + x2 * s260;
  const g = q0 + y * (q1 + y * (q2 + y * (q3 + y * (q4 + y * (q5 + y * (q6 + y * g70))))));
  const slope =
    q1 + y * (2 * q2 + y * (3 * q3 + y * (4 * q4 + y * (5 * q5 + y * (6 * q6 + y * 7 * g70)))));
  return g - (zeroCelsius + t) * perTemperatureUnit * slope;
}

/**
 * Specific heat capacity at sea pressure 0, J/(kg K).
 * @param sa  Absolute Salinity, g/kg
 * @param t   temperature at sea pressure 0, degree C
 * Source: -T d2g/dt2 of the Gibbs function, [IAPWS2008], [IAPWS2009].
 */
export function surfaceHeatCapacity(sa: number, t: number): number {
  const x2 = sa * perSalinityUnit;
  const x = Math.sqrt(x2);
  const y = t * perTemperatureUnit;
  const q2 = 2 * (g20 + x2 * (s220 + x * (s320 + x * s420)));
  const q3 = 6 * (g30 + x2 * (s230 + x * (s330 + x * s430)));
  const q4 = 12 * (g40 + x2 * (s240 + x * (s340 + x * s440)));
  const q5 = 20 * (g50 + x2 * (s250 + x2 * s450));
  const q6 = 30 * (g60 + x2 * s260);
  const curvature = q2 + y * (q3 + y * (q4 + y * (q5 + y * (q6 + y * 42 * g70))));
  return -(zeroCelsius + t) * perTemperatureUnit * perTemperatureUnit * curvature;
}
