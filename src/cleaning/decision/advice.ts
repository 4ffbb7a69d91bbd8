// What to do with the cells before the next station: plain data that goes through JSON.
import type { CellName } from "../../cast/cast.js";
import type { IntensityName } from "../../cast/maintenance.js";

/** One rung of the ladder, held against the others. */
export interface Alternative {
  readonly intensity: IntensityName;
  /** Hands-on, on this instrument. */
  readonly minutes: number;
  /** Probability that the film left at the next station is within the target. */
  readonly probabilityWithinTarget: number;
  /** In minutes of ship's time; see loss.ts. */
  readonly expectedLoss: number;
  /** It fits the time, the instrument, the hands and the record. */
  readonly fits: boolean;
  /** Why it was not chosen; absent for the one that was. */
  readonly whyNot?: string;
}

export interface Advice {
  /** The cells it is for. */
  readonly cells: readonly CellName[];
  /** The cell that `expectedResidual` and `alternatives` are of: of several the one that is hardest to bring back. */
  readonly decidedBy: CellName;
  readonly intensity: IntensityName;
  /** `soak` or harder. */
  readonly deepClean: boolean;
  /** What to do, in plain words. */
  readonly action: string;
  /** Hands-on. */
  readonly minutes: number;
  readonly steps: readonly string[];
  readonly materials: readonly string[];
  readonly cautions: readonly string[];
  /** The film expected at the next station after this cleaning. */
  readonly expectedResidual: {
    /** Its salinity error at SP 35, PSS-78: negative, it reads fresh. */
    readonly salinity: number;
    readonly standardUncertainty: number;
    readonly ppm: number;
    readonly probabilityWithinTarget: number;
  };
  /** Why, in one sentence with the numbers. */
  readonly because: string;
  /** All six, lightest first. */
  readonly alternatives: readonly Alternative[];
  /** What would have changed the advice, each a sentence. */
  readonly sensitivity: readonly string[];
}
