// A simulated cruise before the simulation: small plain data, with a default for everything except seed and length.
import type { CellName } from "../cast/cast.js";
import type { SimulatedEvent } from "./events.js";
import type { OceanName } from "./oceans.js";

/** One value for each layer on both legs: fast, and the usual archive format of many ships. */
export interface Averages {
  readonly kind: "averages";
  readonly layer_dbar: number;
}

/** Every scan of the cast: soak, surface, lowering, bottle stops and the turn, under the ship's heave. */
export interface TimeSeries {
  readonly kind: "time-series";
  readonly rate_Hz: number;
  /** Amplitude of the package's heave, dbar; 0.5 if absent. */
  readonly shipHeave_dbar?: number;
  /** Seconds at the soak depth of 10 dbar before the lowering; 120 if absent. */
  readonly soak_s?: number;
  /** Scans in air before and after each cast; none if absent. */
  readonly deck?: { readonly before?: TimeInAir; readonly after?: TimeInAir };
}

/** A package on deck, with its cells in air. The contribution of water in a cell to its reading is in uS/cm. */
export interface TimeInAir {
  readonly seconds: number;
  /** Initial contribution of the water that runs out of the cell; 0 if absent. */
  readonly draining_microsiemens_cm?: number;
  /** Time over which that falls to 1/e, s; 10 if absent. */
  readonly draining_s?: number;
  /** Mean contribution of the water that stays on the wall, drawn for each cast and cell; 0 if absent. */
  readonly left_microsiemens_cm?: number;
}

export interface Laboratory {
  /** Standard deviation of one laboratory salinity. */
  readonly salinitySd: number;
  /** Standard deviation of the error that a run's standardisation shares among its bottles. */
  readonly runSd: number;
  readonly castsPerRun: number;
  /** Distance below from which the water in a bottle comes, half-normal scale, dbar. */
  readonly wake_dbar: number;
  /** Share of bottles that leak, and share that close at another one's depth. */
  readonly leakRate: number;
  readonly misTripRate: number;
  /** Number of newest casts with bottles whose salinity is not yet measured. */
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
  /** Depths at which they are closed, dbar, instead of the usual depths for their number. */
  readonly bottlePressures_dbar?: readonly number[];
  readonly sampling?: Averages | TimeSeries;
  readonly hoursBetweenCasts?: number;
  readonly laboratory?: Partial<Laboratory>;
  /** Reading of a sound cell minus the truth, ppm: the residual of its calibration. 0 if absent. */
  readonly calibrationResidual_ppm?: Readonly<Partial<Record<CellName, number>>>;
  readonly events?: readonly SimulatedEvent[];
}

/** A complete scenario. */
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

/** The id of a cast from its number, of three digits or more: 7 is "007". */
export function castId(cast: number): string {
  return String(cast).padStart(3, "0");
}

/** The label of the laboratory run that a cast's bottles were measured in. */
export function runOf({ laboratory }: CompleteScenario, cast: number): string {
  return `run ${Math.floor((cast - 1) / laboratory.castsPerRun) + 1}`;
}
