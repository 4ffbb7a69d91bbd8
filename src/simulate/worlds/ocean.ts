// The sea of a cruise at rest: a statically stable profile on a grid of 1 dbar.
// Numbers without a source are judgement: profiles from shelf break to open ocean, invented.

import { ctFromPt, ptFromT, rho, srFromSp } from "../../seawater/index.js";
import type { RandomStream } from "../random.js";
import { between, betweenLog, oneOf } from "./draws.js";

/** Columns by pressure, from 0 dbar in steps of 1 dbar. */
export interface OceanAtRest {
  readonly mixedLayer_dbar: number;
  /** Degree C, referred to 0 dbar. */
  readonly theta: Float64Array;
  /** PSS-78. */
  readonly salinity: Float64Array;
  /** In situ, degree C. */
  readonly temperature: Float64Array;
  /** Adiabatic lapse rate, K/dbar. */
  readonly lapse: Float64Array;
  /** dT/dS at constant density, K per unit of salinity. */
  readonly kelvinPerSalinity: Float64Array;
}

type Climate = "subtropical" | "tropical" | "subpolar";

/** Least increase of density with depth, kg/m3 per dbar: N2 of 2e-7 per s2 in the thermocline, 5e-8 deep (judgement). */
function leastGain(q: number, mixedLayer_dbar: number): number {
  return q < mixedLayer_dbar ? 2e-7 : 4e-6 + 2e-5 * Math.exp(-q / 1000);
}
/** Upper bound of d(density)/dS, kg/m3: an overshoot would add up from level to level. */
const densityPerSalinity = 0.82;
/** Upper limit of dT/dS at constant density: it has no bound near freezing. */
const mostKelvinPerSalinity = 9;

export function drawOcean(random: RandomStream, deepest_dbar: number): OceanAtRest {
  const climate = oneOf<Climate>(random, ["subtropical", "tropical", "subpolar"]);
  const bottom = { theta: between(random, 0.6, 2.2), salinity: between(random, 34.66, 34.95) };
  const surface = {
    subtropical: { theta: between(random, 17, 26), salinity: between(random, 35, 37) },
    tropical: { theta: between(random, 25, 29.5), salinity: between(random, 33.8, 35.5) },
    subpolar: { theta: between(random, 5, 11), salinity: between(random, 33.2, 34.8) },
  }[climate];
  const mixedLayer_dbar =
    climate === "subpolar" ? between(random, 30, 250) : between(random, 20, 110);
  const seasonal = {
    share: between(random, 0.25, 0.6),
    scale: betweenLog(random, 25, 120),
  };
  const main = betweenLog(random, 350, 1000);
  const haline = betweenLog(random, 60, 500);
  const minimum = {
    depth: between(random, 600, 1100),
    width: between(random, 150, 350),
    size: climate === "subpolar" ? 0 : between(random, 0.05, 0.4),
  };
  const rows = deepest_dbar + 201;
  const theta = new Float64Array(rows);
  const salinity = new Float64Array(rows);
  for (let q = 0; q < rows; q++) {
    // The corner at the base of the mixed layer is rounded over 8 dbar.
    const below = 8 * Math.log1p(Math.exp(Math.min(600, (q - mixedLayer_dbar) / 8)));
    const warm =
      seasonal.share * Math.exp(-below / seasonal.scale) +
      (1 - seasonal.share) * Math.exp(-below / main);
    theta[q] = bottom.theta + (surface.theta - bottom.theta) * warm - 4e-5 * q;
    salinity[q] =
      bottom.salinity +
      (surface.salinity - bottom.salinity) *
        (0.6 * Math.exp(-below / haline) + 0.4 * Math.exp(-below / main)) -
      (q > mixedLayer_dbar
        ? minimum.size * Math.exp(-(((q - minimum.depth) / minimum.width) ** 2))
        : 0);
  }
  makeStable(theta, salinity, mixedLayer_dbar);
  return withDerived(mixedLayer_dbar, theta, salinity);
}

/** From the bottom up, freshens each level until it is lighter than the level below. */
function makeStable(theta: Float64Array, salinity: Float64Array, mixedLayer_dbar: number): void {
  for (let q = theta.length - 2; q >= 0; q--) {
    const least = leastGain(q, mixedLayer_dbar);
    const under = density(salinity[q + 1]!, theta[q + 1]!, q + 0.5);
    const float = () => {
      const excess = density(salinity[q]!, theta[q]!, q + 0.5) - under + least;
      if (excess > 0) salinity[q]! -= excess / densityPerSalinity;
      return excess <= least / 10;
    };
    for (let step = 0; step < 4 && !float(); step++);
  }
}

/** Density at p dbar of water of Practical Salinity `sp` and potential temperature `theta`, kg/m3. */
function density(sp: number, theta: number, p: number): number {
  const sa = srFromSp(sp);
  return rho(sa, ctFromPt(sa, theta), p);
}

function withDerived(
  mixedLayer_dbar: number,
  theta: Float64Array,
  salinity: Float64Array,
): OceanAtRest {
  const temperature = new Float64Array(theta.length);
  const lapse = new Float64Array(theta.length);
  const kelvinPerSalinity = new Float64Array(theta.length);
  for (let q = 0; q < theta.length; q++) {
    const sa = srFromSp(salinity[q]!);
    temperature[q] = ptFromT(sa, theta[q]!, 0, q);
    lapse[q] = (ptFromT(sa, theta[q]!, 0, q + 10) - temperature[q]!) / 10;
    const here = density(salinity[q]!, theta[q]!, q);
    const saltier = density(salinity[q]! + 0.01, theta[q]!, q) - here;
    const warmer = density(salinity[q]!, theta[q]! + 0.05, q) - here;
    const ratio = saltier / 0.01 / (-warmer / 0.05);
    kelvinPerSalinity[q] =
      ratio > 0 ? Math.min(ratio, mostKelvinPerSalinity) : mostKelvinPerSalinity;
  }
  return { mixedLayer_dbar, theta, salinity, temperature, lapse, kelvinPerSalinity };
}
