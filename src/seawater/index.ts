// Salinity

export { cFromSp, cFromSpColumn } from "./conductivity.js";
export {
  ctFromPt,
  ctFromT,
  ctFromTColumn,
  ptFromCt,
  tFromCt,
} from "./conservativeTemperature.js";
// Density
export { rho, rhoColumn, sigma0, sigma0Column, specvol } from "./density.js";
export { ctFreezing, tFreezing } from "./freezing.js";
export { pt0FromT, pt0FromTColumn, ptFromT } from "./potentialTemperature.js";
export { spFromC, spFromCColumn } from "./practicalSalinity.js";
export { inPss78Range } from "./pss78Range.js";
export { spFromSr, srFromSp, srFromSpColumn } from "./referenceSalinity.js";
export { spSalinometer, spSalinometerColumn } from "./salinometer.js";
export { type SalinityDerivatives, spFromCFirstDerivatives } from "./sensitivity.js";
// Temperature
export { t68FromT90, t90FromT68 } from "./temperatureScales.js";
