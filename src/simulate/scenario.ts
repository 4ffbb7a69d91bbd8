// A simulated cruise before it is simulated: plain data, small, with a default for all but seed and length.
import type { CellName } from "../cast/cast.js";
import type { SimulatedEvent } from "./events.js";
import type { OceanName } from "./oceans.js";

/** One value a layer on both legs: fast, and what many ships keep. */
export interface Averages {
  readonly kind: "averages";
  readonly layer_dbar: number;
}

/** Every scan of the cast: soak, surface, lowering, bottle stops and the turn, under the ship's heave. */
export interface TimeSeries {
  readonly kind: "time-series";
  readonly rate_Hz: number;
  /** Amplitude of the package's own up and down, dbar; 0.5 if absent. */
  readonly shipHeave_dbar?: number;
  /** Seconds at the soak depth of 10 dbar before the lowering; 120 if absent. */
  readonly soak_s?: number;
  /** Scans in air before and after each cast; none if absent. */
  readonly deck?: { readonly before?: TimeInAir; readonly after?: TimeInAir };
}

/** A package on deck, its cells in air. What water in a cell adds to its reading is given in uS/cm. */
export interface TimeInAir {
  readonly seconds: number;
  /** What runs out of the cell adds so much at first; 0 if absent. */
  readonly draining_microsiemens_cm?: number;
  /** Time in which that falls to 1/e, s; 10 if absent. */
  readonly draining_s?: number;
  /** What stays on the wall adds so much on average, each cast and cell its own; 0 if absent. */
  readonly left_microsiemens_cm?: number;
}

export interface Laboratory {
  /** Standard deviation of one laboratory salinity. */
  readonly salinitySd: number;
  /** Standard deviation of the error that a run's standardisation shares among its bottles. */
  readonly runSd: number;
  readonly castsPerRun: number;
  /** The water in a bottle comes from so far below it, half-normal scale, dbar. */
  readonly wake_dbar: number;
  /** Share of bottles that leak, and that close at another one's depth. */
  readonly leakRate: number;
  readonly misTripRate: number;
  /** So many of the newest casts have bottles whose salinity is not yet measured. */
  readonly newestUnmeasured: number;
}

export interface Scenario {
  /** Whole number; the same scenario and seed give the same cruise. */
  readonly seed: number;
  readonly casts: number;
  readonly name?: string;
  readonly ocean?: OceanName;
  readonly deepest_dbar?: number;
  readonly cells?: readonly CellName[];
  /** Bottles a cast. */
  readonly bottles?: number;
  /** Where they are closed, dbar, instead of the usual depths for their number. */
  readonly bottlePressures_dbar?: readonly number[];
  readonly sampling?: Averages | TimeSeries;
  readonly hoursBetweenCasts?: number;
  readonly laboratory?: Partial<Laboratory>;
  /** What a sound cell reads besides the truth, ppm: what its calibration left. 0 if absent. */
  readonly calibrationResidual_ppm?: Readonly<Partial<Record<CellName, number>>>;
  readonly events?: readonly SimulatedEvent[];
}

/** A scenario with nothing left open. */
export interface CompleteScenario
  extends Required<Omit<Scenario, "bottles" | "laboratory" | "calibrationResidual_ppm">> {
  readonly laboratory: Laboratory;
  readonly calibrationResidual_ppm: Readonly<Record<CellName, number>>;
}

/**
 * One deep bottle lies within 0.0016 to 0.0022 of a sound cell with 95 % probability [CruiseReports2021]
 * [CruiseReports2022]: 0.0009 for the laboratory makes a little over 0.001 with run, wake and the CTD's own noise.
 * A run covers one or two casts [CruiseReports2021] and shares 0.0003, the scatter of modern standards
 * [KawanoEtAl2006]. Wake: up to about 5 m from below after short stops [Codispoti1998]. Rates of bad bottles
 * are judgement.
 */
export const usualLaboratory: Laboratory = {
  salinitySd: 0.0009,
  runSd: 0.0003,
  castsPerRun: 2,
  wake_dbar: 2,
  leakRate: 0.01,
  misTripRate: 0.005,
  newestUnmeasured: 0,
};

/** The id of a cast from its number: 7 is "007". */
export function castId(cast: number): string {
  return String(cast).padStart(3, "0");
}

/** The label of the laboratory run that a cast's bottles were measured in. */
export function runOf({ laboratory }: CompleteScenario, cast: number): string {
  return `run ${Math.floor((cast - 1) / laboratory.castsPerRun) + 1}`;
}
