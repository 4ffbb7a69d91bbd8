// A cell with its thermometer: their readings, and their faults on a cast.
// Numbers without a source are judgement: good sensors.
import type { CellName } from "../cast/cast.js";
import type { CellTruth } from "./cellTruth.js";
import { lagAtFlow, type ThermalLag, usualLag } from "./cellWallHeat.js";
import { randomStream } from "./random.js";
import type { CompleteScenario } from "./scenario.js";

/** Standard deviations of the readings: of a scan, and of a mean over ten seconds or a layer (judgement). */
const noiseOfScan = { temperature_K: 0.0004, conductivity_mS_cm: 0.0004 };
const noiseOfMean = { temperature_K: 0.0001, conductivity_mS_cm: 0.0001 };
/**
 * A thermometer changes from cast to cast by this, K. The difference of two of them then stays within 0.3 mK, as on a
 * published cruise of 117 stations [CruiseReports2022], in about five casts of six.
 */
const thermometerScatter_K = 0.00015;
/** With little flow: the delay at the usual flow, s, and the added noise (judgement). */
const usualDelay_s = 0.1;
const lowFlowNoise = 5;

interface SensorPair {
  readonly lag: ThermalLag;
  /** Thermometer's reading minus the truth, K. */
  readonly temperatureOffset_K: number;
  readonly noise: typeof noiseOfMean;
}

export function pairOnCast(
  scenario: CompleteScenario,
  cast: number,
  cell: CellName,
  truth: CellTruth,
): SensorPair {
  const wander = randomStream(scenario.seed).split("thermometer").split(cast).split(cell);
  const { share } = flowOf(scenario, cast, cell);
  const lag = share === 1 ? usualLag : lagAtFlow(share);
  const factor = scenario.events.reduce(
    (product, event) =>
      event.kind === "thermal-lag" && event.cast === cast && event.cells.includes(cell)
        ? product * event.factor
        : product,
    1,
  );
  return {
    lag: { ...lag, alpha: factor * lag.alpha },
    temperatureOffset_K: truth.temperatureError_mK / 1000 + thermometerScatter_K * wander.normal(),
    noise: scenario.sampling.kind === "averages" ? noiseOfMean : noiseOfScan,
  };
}

/** The noise of a reading at closure: a mean over some seconds of a stopped package. */
export const noiseAtClosure = { temperature_K: 0.0002, conductivity_mS_cm: 0.0002 };

interface Flow {
  readonly share: number;
  /** The cell holds water from this far back on the path, dbar. */
  readonly behind_dbar: number;
  /** Factor on the noise of conductivity. */
  readonly noise: number;
}

/** The flow through a cell on a cast; the package is lowered a metre in a second. */
export function flowOf(scenario: CompleteScenario, cast: number, cell: CellName): Flow {
  const share = scenario.events.reduce(
    (least, event) =>
      event.kind === "flow-loss" && event.cast === cast && event.cells.includes(cell)
        ? Math.min(least, event.flow)
        : least,
    1,
  );
  return {
    share,
    // At the usual flow the delay has been removed from the columns, as ships do first.
    behind_dbar: usualDelay_s * (1 / share - 1),
    noise: share === 1 ? 1 : lowFlowNoise,
  };
}

/** Delay of conductivity relative to temperature, s, without the effect of little flow. */
export function misalignmentOf({ events }: CompleteScenario, cast: number, cell: CellName): number {
  return events.reduce((sum, event) => {
    if (event.kind !== "misalignment" || !event.cells.includes(cell)) return sum;
    const ours = cast >= event.fromCast && cast <= (event.untilCast ?? cast);
    return ours ? sum + event.seconds : sum;
  }, 0);
}

/** @returns the reading of a cell of this gain, ppm, and additive offset, uS/cm, for a true conductivity */
export function reading(
  conductivity_mS_cm: number,
  gain_ppm: number,
  offset_uS_cm: number,
): number {
  return conductivity_mS_cm * (1 + gain_ppm * 1e-6) + offset_uS_cm / 1000;
}
