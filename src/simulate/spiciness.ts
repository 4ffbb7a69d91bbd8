// Water of equal density.
// Numbers without a source are judgement: a step far above rounding, and a bound.
import { ctFromPt, rho, srFromSp } from "../seawater/index.js";

/** Near the temperature of greatest density no temperature compensates salinity; K per unit of salinity. */
const most = 20;
const step = 0.01;

/**
 * Change of potential temperature that keeps the density constant when salinity increases by one: haline contraction over
 * thermal expansion, at the given pressure, K.
 */
export function compensatingTemperature(sp: number, pt: number, p: number): number {
  const density = (s: number, theta: number) => {
    const sa = srFromSp(s);
    return rho(sa, ctFromPt(sa, theta), p);
  };
  const bySalinity = density(sp + step, pt) - density(sp - step, pt);
  const byTemperature = density(sp, pt + step) - density(sp, pt - step);
  const ratio = -bySalinity / byTemperature;
  return ratio > 0 && ratio < most ? ratio : most;
}
