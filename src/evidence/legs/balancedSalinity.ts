// What the wiggles of temperature between the legs tell of those of salinity. Waters that interleave keep their density:
// where one leg passed warmer water than the other at a density, it was saltier too. Heave is smooth against that.
import { ctFromPt, rho, srFromSp } from "../../seawater/index.js";
import { runningSum } from "../../statistics/runningSum.js";

/** What was found on both legs, one value a thin layer. */
interface LayersOfBoth {
  readonly pressureUp_dbar: Float64Array;
  readonly pressureDown_dbar: Float64Array;
  readonly potentialTemperature_C: Float64Array;
  readonly salinity: Float64Array;
  readonly ppmPerSalinity: Float64Array;
}

/** Heave is a line over about this, dbar on either side, or this share of the cast, or so many layers (judgement). */
const smooth_dbar = 30;
const smoothShare = 1 / 25;
const fewestSmooth = 4;
/** Temperature changes evenly over this, in parts of that; over half as much more it is seen whether it does (judgement). */
const slopePart = 1 / 4;
const evenPart = 1 / 2;
const fewestEven = 2.5;
/** The ratio of expansion to contraction is worked out at so many places and interpolated (speed). */
const places = 50;

/**
 * How much saltier the up leg would be than the down leg, ppm of conductivity, if all by which a temperature is found
 * nearer or further on the other leg than its surroundings were of water of equal density. Nothing where temperature
 * does not change, or does on one side only.
 */
export function balancedSalinity(layers: LayersOfBoth): Float64Array {
  const { pressureUp_dbar, pressureDown_dbar, potentialTemperature_C, ppmPerSalinity } = layers;
  const n = pressureUp_dbar.length;
  const pressure = pressureUp_dbar.map((p, k) => (p + pressureDown_dbar[k]!) / 2);
  const heave = pressureUp_dbar.map((p, k) => p - pressureDown_dbar[k]!);
  const span = pressure[n - 1]! - pressure[0]!;
  const reach = Math.min(smooth_dbar, smoothShare * span) / (span / (n - 1));
  const half = Math.max(fewestSmooth, Math.round(reach));
  const slope = slopes(
    potentialTemperature_C,
    pressure,
    Math.max(1, Math.round(slopePart * reach)),
  );
  const broad = slopes(potentialTemperature_C, pressure, half);
  const near = Math.max(fewestEven, evenPart * reach);
  const even = evenness(potentialTemperature_C, pressure, Math.round(near));
  const smooth = localLine(
    heave,
    pressure,
    broad.map((b, k) => b * b * even[k]!),
    half,
  );
  const ratio = expansionOverContraction(layers, pressure);
  return heave.map((h, k) => {
    const warmer = -even[k]! * (h - smooth[k]!) * slope[k]!;
    return warmer * ratio[k]! * ppmPerSalinity[k]!;
  });
}

/** K/dbar over so many layers on either side. */
function slopes(theta: Float64Array, pressure: Float64Array, near: number): Float64Array {
  const last = theta.length - 1;
  return theta.map((_, k) => {
    const [above, below] = [Math.max(0, k - near), Math.min(last, k + near)];
    return (theta[below]! - theta[above]!) / (pressure[below]! - pressure[above]!) || 0;
  });
}

/** 1 where temperature changes on both sides, one no more than twice the other; 0 where on one side it does not. */
function evenness(theta: Float64Array, pressure: Float64Array, near: number): Float64Array {
  const last = theta.length - 1;
  const slope = (a: number, b: number) => (theta[b]! - theta[a]!) / (pressure[b]! - pressure[a]!);
  return theta.map((_, k) => {
    if (k < near / 2 || k > last - near / 2) return 1;
    const above = slope(Math.max(0, k - near), k);
    const below = slope(k, Math.min(last, k + near));
    return above * below > 0 ? Math.min(1, 2 * Math.min(above / below, below / above)) : 0;
  });
}

/** What the weighted line through the values around says of each, fading with distance. */
function localLine(
  y: Float64Array,
  x: Float64Array,
  weight: Float64Array,
  half: number,
): Float64Array {
  const around = (value: (k: number) => number) => {
    const own = y.map((_, k) => weight[k]! * value(k));
    return runningSum(runningSum(own, half), half);
  };
  const w = around(() => 1);
  const wx = around((k) => x[k]!);
  const wy = around((k) => y[k]!);
  const wxx = around((k) => x[k]! ** 2);
  const wxy = around((k) => x[k]! * y[k]!);
  const least = ((x[x.length - 1]! - x[0]!) / x.length) ** 2;
  return y.map((own, k) => {
    const [meanX, meanY] = [wx[k]! / w[k]!, wy[k]! / w[k]!];
    const square = wxx[k]! / w[k]! - meanX ** 2;
    if (!(square > least)) return own;
    return meanY + ((wxy[k]! / w[k]! - meanX * meanY) / square) * (x[k]! - meanX);
  });
}

/** Salinity that balances a kelvin in density: thermal expansion over haline contraction, from some places. */
function expansionOverContraction(
  { potentialTemperature_C, salinity }: LayersOfBoth,
  pressure: Float64Array,
): Float64Array {
  const n = pressure.length;
  const at = (k: number) => {
    const [sa, theta, p] = [srFromSp(salinity[k]!), potentialTemperature_C[k]!, pressure[k]!];
    const density = (s: number, t: number) => rho(s, ctFromPt(s, t), p);
    const warmer = density(sa, theta + step) - density(sa, theta - step);
    const saltier = density(sa + step, theta) - density(sa - step, theta);
    // Below the temperature of greatest density nothing balances.
    return Math.max(0, -warmer / saltier) || 0;
  };
  const apart = Math.max(1, Math.floor(n / places));
  const nodes = Array.from({ length: Math.ceil(n / apart) }, (_, j) => at(j * apart));
  return pressure.map((_, k) => {
    const j = Math.min(Math.floor(k / apart), Math.max(0, nodes.length - 2));
    const next = nodes[Math.min(j + 1, nodes.length - 1)]!;
    return nodes[j]! + (k / apart - j) * (next - nodes[j]!);
  });
}

/** Step of the difference quotients, K and g/kg (judgement: far above rounding, far below any curvature). */
const step = 0.01;
