// A reference bottle: water closed off beside the CTD, its salinity measured in the laboratory.
import type { CellName } from "./cast.js";

/** The CTD readings when the bottle closed. */
export interface ClosureReading {
  /** In-situ temperature, ITS-90 degree C. */
  readonly temperature_C: number;
  /** Conductivity, mS/cm. */
  readonly conductivity_mS_cm: number;
}

export interface Bottle {
  /** Id of the cast on which it was closed. */
  readonly cast: string;
  /** The bottle's number or label, as written. */
  readonly bottle: string;
  /** Sea pressure at closure, dbar. */
  readonly pressure_dbar: number;
  /**
   * Laboratory salinity, PSS-78; NaN if no sample was drawn or it is not yet measured. A program in JavaScript may leave the
   * key out.
   */
  readonly salinity: number;
  /** Seconds on the clock of the scans of its cast. */
  readonly time_s?: number;
  /** ISO 8601 UTC. */
  readonly closureTime?: string;
  /** WOCE water-sample flag of the laboratory salinity: 2 good, 3 questionable, 4 bad, 6 mean of replicates. */
  readonly flag?: number;
  /** WOCE bottle flag: 2 no problem noted, 3 leaking, 4 did not trip correctly. */
  readonly bottleFlag?: number;
  /** The laboratory run that measured it: bottles of one run share its standardisation error. */
  readonly run?: string;
  /** CTD readings at closure, by cell; if absent, they are taken from the cast. */
  readonly ctd?: Readonly<Partial<Record<CellName, ClosureReading>>>;
  /** Line in the file it was read from. */
  readonly line?: number;
}
