// One line of evidence: observations of the gain error, each with an honest variance.
import type { CellName, LegName } from "../cast/cast.js";

export const evidenceLines = ["legs", "bottles", "pair", "deep-water", "air-zero"] as const;
export type EvidenceLine = (typeof evidenceLines)[number];
/** Beside those that speak of the cells, the thermometers against each other. */
export type ObservedLine = EvidenceLine | "temperature-pair";

/** The gain of one cell at one place of the cast, and how it enters an observation. */
export interface GainTerm {
  readonly cell: CellName;
  readonly leg: LegName;
  /** +1 or -1. */
  readonly weight: number;
}

/**
 * value = sum of weight x gain over `terms` + error, all in ppm of conductivity,
 * the gain being that of the cell on that leg at `pressure_dbar`. Of the line `temperature-pair` it is the reading of the
 * thermometers beside the cells, in mK.
 */
export interface Observation {
  readonly line: ObservedLine;
  readonly cast: string;
  readonly terms: readonly GainTerm[];
  /** ppm: 1e6 x the natural logarithm of a ratio of conductivities. */
  readonly value_ppm: number;
  /** ppm squared; the error is independent of that of every other observation. */
  readonly variance_ppm2: number;
  readonly pressure_dbar: number;
  /**
   * What one dbar of wake does to it: a bottle that holds water from below shows this much more, ppm. Absent
   * where the observation is no bottle.
   */
  readonly perWake_ppm?: number;
  /**
   * Present where the observation is the additive offset of a cell and not a gain: `terms` is then empty, and the
   * value and its variance are in uS/cm and its square.
   */
  readonly additive?: { readonly cell: CellName };
  /** The water it was read in: what an offset or a wrong thermometer does to a gain depends on it. */
  readonly water?: { readonly conductivity_mS_cm: number; readonly temperature_C: number };
  /** The laboratory run a bottle was measured in: its observations share one more error. */
  readonly run?: string;
  /** The bottle's label, where the observation is a bottle. */
  readonly bottle?: string;
}

/** Something that was not used, and why. */
export interface LeftOut {
  /** For a person: "bottle 7 at 1250 dbar". */
  readonly what: string;
  readonly why: string;
}

/** Where on the cast a gain changed, as one line of evidence sees it. */
export interface Onset {
  readonly pressure_dbar: number;
  /** dbar. */
  readonly standardUncertainty_dbar: number;
  /** Probability that it happened on the way down; 0.5 where the line cannot tell. */
  readonly probabilityDown: number;
}

/** What one line says of one cell (or of the pair) on one cast. */
export interface LineOfEvidence {
  readonly line: ObservedLine;
  readonly cast: string;
  readonly cell: CellName | "both";
  readonly observations: readonly Observation[];
  readonly leftOut: readonly LeftOut[];
  /** Present where the change happened within the cast and could be placed. */
  readonly onset?: Onset;
  /** What this line cannot see here, in plain words. */
  readonly notes: readonly string[];
}
