// A cruise: casts in order, reference bottles, the maintenance record, the instrument, the target. Every part except the
// casts may be missing.
import type { Bottle } from "./bottle.js";
import type { Cast, CellName } from "./cast.js";
import type { DeepReference } from "./deepReference.js";
import type { InputFile } from "./inputFile.js";
import type { MaintenanceEvent } from "./maintenance.js";

/** The sensors of one cell's line, as they were when the cruise began. */
interface LineOfSensors {
  /** Serial number of the conductivity cell. */
  readonly cell?: string;
  /** Day of its calibration, ISO 8601. */
  readonly cellCalibrated?: string;
  /** Serial number of the thermometer. */
  readonly thermometer?: string;
  readonly thermometerCalibrated?: string;
}

/** A spare sensor aboard. */
interface Spare {
  readonly kind: "cell" | "thermometer";
  readonly serial: string;
  readonly calibrated?: string;
}

/** The configuration of the instrument; unknown properties are absent. */
export interface Instrument {
  /** Cells on the package; taken from the data if absent. */
  readonly cells?: readonly CellName[];
  /** Water is pumped through the cell, or flows freely. */
  readonly flow?: "pumped" | "free-flow";
  /** Inner diameter of the cell, mm. */
  readonly bore_mm?: number;
  readonly sampleRate_Hz?: number;
  /** A dissolved-oxygen sensor sits in the same line as the cell. */
  readonly oxygenSensorInLine?: boolean;
  /** The cell must not be exposed to acid. */
  readonly noAcid?: boolean;
  /** Serial number of the frame. */
  readonly serial?: string;
  readonly sensors?: Readonly<Partial<Record<CellName, LineOfSensors>>>;
  readonly spares?: readonly Spare[];
}

/** The next cast. */
export interface NextStation {
  /** ISO 8601 UTC of the next cast. */
  readonly time?: string;
  /** Minutes available for cleaning before it. */
  readonly minutesAvailable?: number;
  /** Lowest air temperature on deck until then, degree C. */
  readonly air_C?: number;
  /** Number of casts that the battery must last. */
  readonly castsToCome?: number;
}

/** One cast of the cruise's list; `data` is absent if only its bottles are known. */
export interface CruiseCast {
  readonly id: string;
  /** ISO 8601 UTC. */
  readonly start?: string;
  readonly latitude?: number;
  readonly longitude?: number;
  readonly data?: Cast;
}

export interface Cruise {
  readonly name: string;
  /** Plain text shown with every verdict, for instance that the cruise is invented. */
  readonly note?: string;
  /** In order of time. */
  readonly casts: readonly CruiseCast[];
  readonly bottles: readonly Bottle[];
  readonly maintenance: readonly MaintenanceEvent[];
  readonly instrument: Instrument;
  /** Required salinity accuracy, PSS-78. */
  readonly target: number;
  readonly nextStation?: NextStation;
  /** Time on board minus UTC, such as "+02:00"; times are then shown in both. */
  readonly timeZone?: string;
  /** A reference table for the deep water, instead of the cruise's own curve. */
  readonly deepReference?: DeepReference;
  readonly inputs: readonly InputFile[];
}

/** The WOCE and GO-SHIP accuracy figure for salinity [McTaggartEtAl2010]. */
export const defaultTarget = 0.002;
