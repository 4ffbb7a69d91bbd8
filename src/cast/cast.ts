// A cast: one lowering and recovery of the CTD, as columns with one value for each scan.

/** The name of a conductivity cell on the package. */
export type CellName = "primary" | "secondary";
/** One value for each cell; absent for a cell that is not fitted or has none. */
export type ByCell<T> = Readonly<Partial<Record<CellName, T>>>;

/** Half of a cast. */
export type LegName = "down" | "up";

/** The readings of one conductivity cell and of its thermometer. */
export interface CellColumns {
  /** In-situ temperature, ITS-90 degree C; NaN if missing. */
  readonly temperature_C: Float64Array;
  /** Conductivity, mS/cm; NaN if missing. */
  readonly conductivity_mS_cm: Float64Array;
}

/** The columns of a cast, all of one length, in the order the scans were taken. */
export interface CastColumns {
  /** Seconds since the first scan; absent if the file has no time. */
  readonly time_s?: Float64Array;
  /** Sea pressure, dbar; NaN if missing. */
  readonly pressure_dbar: Float64Array;
  readonly primary: CellColumns;
  readonly secondary?: CellColumns;
  /** Other columns, recognised or not, unchanged, by heading. */
  readonly others: Readonly<Record<string, readonly string[]>>;
}

/** One cast as read, before any processing. */
export interface Cast {
  readonly id: string;
  /** Start of the cast, ISO 8601 UTC. */
  readonly start?: string;
  /** Degrees north and east. */
  readonly latitude?: number;
  readonly longitude?: number;
  /** Scans per second, if known from the file or the description. */
  readonly sampleRate_Hz?: number;
  /**
   * `salinity` if the file had no conductivity and it was computed from salinity. The verdict then says so, because any
   * correction of that salinity is also in the conductivity.
   */
  readonly conductivityFrom: "measured" | "salinity";
  readonly columns: CastColumns;
}
