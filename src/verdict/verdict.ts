// The verdict: what is said of a cast, as plain data that goes through JSON.
// The schema in verdictSchema.ts says the same for programs that read it.
import type { CellName } from "../cast/cast.js";
import type { InputFile } from "../cast/cruise.js";
import type { IntensityName } from "../cast/maintenance.js";
import type { CauseName } from "../causes/index.js";
import type { Advice } from "../cleaning/decision/advice.js";
import type { HealthFinding } from "../health/finding.js";
import type { Estimate } from "../model/estimate.js";
import type { ChangeOfGain, EvidenceSummary } from "../model/grounds.js";

export type { ChangeOfGain, Estimate, EvidenceSummary };

export const verdictFormat = "foulcast-verdict/1";

export interface CauseProbability {
  readonly cause: CauseName;
  readonly probability: number;
  readonly because: string;
}

export interface Forecast {
  /** Hours from the start of this cast to the next. */
  readonly hours: number;
  readonly gainError: Estimate;
  /** Probability that the salinity error at SP 35 is then beyond the target. */
  readonly probabilityBeyondTarget: number;
}

export interface CellVerdict {
  /**
   * The gain error at atmospheric pressure: as the down leg began, as the up leg ended, and now, which for the
   * latest cast is after what the record says was done since.
   */
  readonly gainError: { readonly down: Estimate; readonly up: Estimate; readonly now: Estimate };
  /** What the cell reads when clean: its calibration residual. */
  readonly cleanGain: Estimate;
  /** Change of the reading with pressure, ppm per 1000 dbar. */
  readonly pressureResponse: {
    readonly ppmPer1000dbar: number;
    readonly standardUncertainty: number;
  };
  /** What the gain error of the up leg does to Practical Salinity; absent in situ where no water was read. */
  readonly salinityError: {
    readonly at35: number;
    readonly standardUncertainty: number;
    readonly inSitu?: number;
  };
  /** What the thermometer beside the cell is off by, mK; absent while nothing speaks of it. */
  readonly temperatureError?: {
    readonly millikelvin: number;
    readonly standardUncertainty: number;
  };
  /** What the cell would read in air, uS/cm; absent where it was not read there. */
  readonly additiveOffset?: {
    readonly microsiemens_cm: number;
    readonly standardUncertainty: number;
  };
  readonly change: ChangeOfGain;
  /** Most probable first, summing to one. */
  readonly causes: readonly CauseProbability[];
  readonly forecast: Forecast;
  readonly advice: Advice;
  readonly data: DataQuality;
}

export type DataQuality = "sound" | "usable-after-correction" | "questionable" | "bad";

/** What a cleaning turned out to have left of the film, told from the casts before and after it. */
export interface CleaningSeen {
  readonly afterCast: string;
  readonly cell: CellName;
  readonly intensity: IntensityName;
  /** Share of the film that stayed, 0 to 1. */
  readonly retained: number;
  readonly standardUncertainty: number;
}

/** Beside the same cell on the casts before; absent where there are too few of them. */
interface BesideUsual {
  /** What it was on them. */
  readonly usual?: number;
  readonly differs?: boolean;
}

/** How one cell and its thermometer answered on a cast. */
export interface ResponseSeen {
  /** Seconds by which conductivity comes later than temperature. */
  readonly alignment?: BesideUsual & {
    readonly seconds: number;
    readonly standardUncertainty: number;
  };
  readonly thermalLag?: BesideUsual & {
    /** What it makes of a steady gradient, beside a usual cell. */
    readonly timesUsual: number;
    readonly standardUncertainty: number;
    /** Amplitude and time constant, s, where the cast tells them apart. */
    readonly alpha?: number;
    readonly alphaStandardUncertainty?: number;
    readonly tau_s?: number;
    readonly tauStandardUncertainty_s?: number;
  };
  /** How it differs from the casts before, in plain words; a sign of a failing pump or a clogged line. */
  readonly changes: readonly string[];
}

export interface Verdict {
  readonly cast: string;
  readonly start?: string;
  readonly cells: Readonly<Partial<Record<CellName, CellVerdict>>>;
  /** Of all cells together: which of them needs what. */
  readonly advice: Advice;
  /**
   * Cleanings whose outcome this cast is the first to tell, or tells anew because it contradicts what was told; absent
   * where there is none, or nothing can be said.
   */
  readonly cleaned?: readonly CleaningSeen[];
  readonly evidence: readonly EvidenceSummary[];
  /** How each cell and its thermometer answered; absent where the cast's scans do not tell. */
  readonly response?: Readonly<Partial<Record<CellName, ResponseSeen>>>;
  /** What is amiss with what the sensors read; absent where nothing is. */
  readonly health?: readonly HealthFinding[];
  /** What would settle an open verdict. */
  readonly wouldDecide: readonly string[];
  readonly data: DataQuality;
  /** What a reader must know beside: conductivity rebuilt from salinity, lines that are missing. */
  readonly notes: readonly string[];
}

export interface VerdictDocument {
  readonly format: typeof verdictFormat;
  readonly cruise: {
    readonly name: string;
    readonly note?: string;
    /** Salinity accuracy wanted, PSS-78. */
    readonly target: number;
  };
  /** What the caller chose, or the defaults that stood. */
  readonly settings: {
    /** Confidence with which a cleaning was asked to meet the target. */
    readonly confidence: number;
    readonly procedure: "usual" | "the ship's own";
    /** Absent where nothing was said of who is on board. */
    readonly trainedHands?: boolean;
  };
  readonly casts: readonly Verdict[];
  /** Id of the last cast. */
  readonly latest: string;
  readonly software: { readonly name: string; readonly version: string };
  readonly inputs: readonly InputFile[];
}
