// Salinity differences between the legs that balance their temperature differences. Interleaving waters keep their density:
// if one leg passed warmer water than the other at the same density, that water was also saltier. Heave, in contrast, is
// smooth with depth.
import { ctFromPt, rho, srFromSp } from "../../seawater/index.js";
import { runningSum } from "../../statistics/runningSum.js";

/** The properties found on both legs, one value for each thin layer. */
interface LayersOfBoth {
  readonly pressureUp_dbar: Float64Array;
  readonly pressureDown_dbar: Float64Array;
  readonly potentialTemperature_C: Float64Array;
  readonly salinity: Float64Array;
  readonly ppmPerSalinity: Float64Array;
}

/**
 * Heave is a straight line over about this many dbar on either side, or this share of the cast, or at least this many
 * layers (judgement).
 */
const smooth_dbar = 30;
const smoothShare = 1 / 25;
const fewestSmooth = 4;
/** The temperature gradient is taken over a part of that distance; its evenness is tested over another part (judgement). */
const slopePart = 1 / 4;
const evenPart = 1 / 2;
const fewestEven = 2.5;
/** The ratio of expansion to contraction is computed at this many places and interpolated (speed). */
const places = 50;

/**
 * The salinity of the up leg minus that of the down leg, ppm of conductivity, for density-compensated water. It assumes such
 * water wherever the depths of one temperature on the two legs differ by more than the smooth heave. It is 0 where temperature
 * does not change on both sides.
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

/** K/dbar over this many layers on either side. */
function slopes(theta: Float64Array, pressure: Float64Array, near: number): Float64Array {
  const last = theta.length - 1;
  return theta.map((_, k) => {
    const [above, below] = [Math.max(0, k - near), Math.min(last, k + near)];
    return (theta[below]! - theta[above]!) / (pressure[below]! - pressure[above]!) || 0;
  });
}

/** 1 if the temperature changes on both sides, one no more than twice the other; 0 if it does not change on one side. */
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

/** Value of a local weighted line at each point; the weights decrease with distance. */
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

/**
 * Salinity change that balances one kelvin in density: thermal expansion over haline contraction, interpolated between a
 * few places.
 */
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
    // Below the temperature of greatest density no salinity balances.
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
