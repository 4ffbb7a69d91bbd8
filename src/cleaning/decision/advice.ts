// What to do with a cell before the next station: plain data that goes through JSON.
import { type IntensityName, intensityNames } from "../../cast/maintenance.js";

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

/** Of two cells' advice the harder; of the same intensity the one that is less sure to do. */
export function harderAdvice(a: Advice, b: Advice): Advice {
  const harder = intensityNames.indexOf(b.intensity) - intensityNames.indexOf(a.intensity);
  if (harder !== 0) return harder > 0 ? b : a;
  const [ofA, ofB] = [a, b].map((advice) => advice.expectedResidual.probabilityWithinTarget);
  return ofB! < ofA! ? b : a;
}
