// The least variance with which one line of evidence could know its gain on one cast: the Cramer-Rao bound of the
// cast's design, [VanTrees1968] where an error is shared, from the simulator's own noise. What each bound is told and
// the estimator is not:
//
// Bottles. A bottle's error is normal (laboratory, reading at closure) and half-normal on one side (wake x gradient of
// salinity): a skew normal, whose information about its place is in closed form but for one integral [Azzalini1985].
// That is more than one over its variance: one side has an edge. Told: the gradient of salinity at each bottle, the
// laboratory's spread, the scale of the wake, which bottles leaked or tripped elsewhere (they count for nothing). Not
// told: the run's error and the thermometer's, shared by all bottles, of known spread.
//
// Pair. Scan noise of two cells and two thermometers, and the difference of the thermometers on this cast, of known
// spread, that all scans share. Told: sizes of noise. This is for who must allow each thermometer water of its own. In the
// simulator both cells pass the very same water, and for who knew that, conductivity alone would do: the second bound.
import type { Cast } from "../../src/cast/cast.js";
import { certainZero, condition, redraw } from "../../src/model/gaussian.js";
import { cFromSp, spFromCFirstDerivatives } from "../../src/seawater/index.js";
import type { CastWater, CellTruth, CompleteScenario } from "../../src/simulate/index.js";
import { legAt, packagePath } from "../../src/simulate/packagePath.js";
import { noiseAtClosure, pairOnCast } from "../../src/simulate/sensorPair.js";
import { normalLogCdf, normalPdf } from "../../src/statistics/normal.js";

/** One cast as the simulator made it. */
export interface MadeCast {
  readonly scenario: CompleteScenario;
  /** Counted from 1. */
  readonly cast: number;
  readonly water: CastWater;
  readonly truth: CellTruth;
  /** What its sensors read. */
  readonly data: Cast;
}

/** As in src/simulate/sensorPair.ts, which keeps it to itself. */
export const thermometerWander_K = 0.00015;
/** Gains are as good as unknown beforehand, ppm. */
export const unknown_ppm = 1e4;
/** Scans are so many to the bound that more would not move it. */
const enoughScans = 400;

/** What a reading of this water is worth: ppm per unit of salinity, per kelvin, per mS/cm. */
export function worth({ water }: MadeCast, leg: "down" | "up", p: number) {
  const { salinity, temperature_C } = water(leg, p);
  const c = cFromSp(salinity, temperature_C, p);
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c, temperature_C, p);
  const perSalinity = 1e6 / (c * dSpDc);
  return { perSalinity, perKelvin: perSalinity * dSpDt, perConductivity: 1e6 / c, dSpDt };
}

/** Variance of the gain where each datum sees it and shared errors of known spread. */
function varianceOfGain(
  data: readonly { readonly information: number; readonly shared: readonly number[] }[],
  spreads: readonly number[],
): number {
  const state = certainZero(1 + spreads.length);
  redraw(state, 0, 0, unknown_ppm ** 2);
  for (const [i, sd] of spreads.entries()) redraw(state, 1 + i, 0, sd ** 2);
  for (const { information, shared } of data) {
    condition(state, Float64Array.of(1, ...shared), 0, 1 / information);
  }
  return state.covariance[0]!;
}

export function bottlesBound(made: MadeCast): number {
  const { laboratory, bottlePressures_dbar } = made.scenario;
  const typicalWake = laboratory.wake_dbar * Math.sqrt(2 / Math.PI);
  const sound = 1 - laboratory.leakRate - laboratory.misTripRate;
  const data = bottlePressures_dbar.map((p) => {
    const { perSalinity, perKelvin, perConductivity } = worth(made, "up", p);
    const salinityAt = (pressure: number) => made.water("up", pressure).salinity;
    const gradient = (salinityAt(p + typicalWake) - salinityAt(p)) / typicalWake;
    const normal = Math.hypot(
      perSalinity * laboratory.salinitySd,
      perKelvin * noiseAtClosure.temperature_K,
      perConductivity * noiseAtClosure.conductivity_mS_cm,
    );
    const oneSided = Math.abs(perSalinity * gradient * laboratory.wake_dbar);
    return {
      information: sound * skewNormalInformation(normal, oneSided),
      shared: [perSalinity, perKelvin],
    };
  });
  return varianceOfGain(data, [laboratory.runSd, thermometerWander_K]);
}

/** Information about the place of normal(0, normal) + oneSided x |normal(0, 1)| [Azzalini1985], by Simpson's rule. */
function skewNormalInformation(normal: number, oneSided: number): number {
  const shape = oneSided / normal;
  const reach = 12 / Math.max(1, shape);
  const n = 400;
  const h = (2 * reach) / n;
  let sum = 0;
  for (let i = 0; i <= n; i++) {
    const z = -reach + i * h;
    const log = 2 * Math.log(normalPdf(shape * z)) - normalLogCdf(shape * z);
    sum += (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2) * 2 * normalPdf(z) * Math.exp(log);
  }
  return (1 + shape ** 2 * ((sum * h) / 3)) / (normal ** 2 + oneSided ** 2);
}

/** @param sameWater both cells are known to be in the very same water */
export function pairBound(made: MadeCast, sameWater: boolean): number {
  const path = packagePath(made.scenario);
  const { noise } = pairOnCast(made.scenario, made.cast, "primary", made.truth);
  const every = Math.max(1, Math.floor(path.pressure_dbar.length / enoughScans));
  const data = [];
  for (let i = 0; i < path.pressure_dbar.length; i += every) {
    const { perKelvin, perConductivity } = worth(made, legAt(path, i), path.pressure_dbar[i]!);
    const own = Math.hypot(
      perConductivity * noise.conductivity_mS_cm,
      sameWater ? 0 : perKelvin * noise.temperature_K,
    );
    data.push({ information: every / (2 * own ** 2), shared: [sameWater ? 0 : perKelvin] });
  }
  return varianceOfGain(data, [Math.SQRT2 * thermometerWander_K]);
}
