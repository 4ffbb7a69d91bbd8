// An entry of the maintenance record: the work on the instrument, and its time.
import type { CellName } from "./cast.js";

/** Intensities of cleaning, lightest first. */
export const intensityNames = [
  "rinse",
  "wash",
  "soak",
  "disinfect",
  "descale",
  "exchange",
] as const;
export type IntensityName = (typeof intensityNames)[number];

/** Other actions in the record. */
const otherActions = [
  "storage",
  "plugs",
  "seals",
  "battery",
  "calibration",
  "pre-cast-check",
  "air-reading",
  "housing-opened",
  "other",
] as const;
export type MaintenanceAction = IntensityName | (typeof otherActions)[number];
export const maintenanceActions: readonly MaintenanceAction[] = [
  ...intensityNames,
  ...otherActions,
];

/** A cell that reads more than this in air, of either sign, holds water or is broken: 1 % of sea water, mS/cm. */
export const mostInAir_mS_cm = 0.5;

/** Chemistry of the cells of a battery pack. */
export const batteryKinds = ["alkaline", "lithium", "lithium-ion", "nickel-metal-hydride"] as const;
export type BatteryKind = (typeof batteryKinds)[number];

export interface MaintenanceEvent {
  readonly action: MaintenanceAction;
  /** ISO 8601 UTC. */
  readonly time?: string;
  /** Id of the cast that it followed. Either this or `time` is present. */
  readonly afterCast?: string;
  /** The cell that was treated; all cells if absent. */
  readonly cell?: CellName;
  /** The solution in the cell, in the words of the record. */
  readonly solution?: string;
  /** Concentration as written, with its unit. */
  readonly concentration?: string;
  readonly minutes?: number;
  readonly soaked?: boolean;
  readonly drained?: boolean;
  readonly rinsed?: boolean;
  /** Whether the dissolved-oxygen sensor was out of the line meanwhile. */
  readonly oxygenSensorOut?: boolean;
  /** For a battery check: voltage of the whole pack. */
  readonly batteryVolts?: number;
  /** Cells in series in the pack. */
  readonly batteryCells?: number;
  readonly batteryKind?: BatteryKind;
  /** For a reading in air: the reading of the cell, mS/cm. */
  readonly reading_mS_cm?: number;
  /** Serial number of the sensor that was fitted or calibrated. */
  readonly serial?: string;
  readonly by?: string;
  readonly note?: string;
  /** Line in the file it was read from. */
  readonly line?: number;
}
