// What may be the matter with the answer of a sensor on one cast, as plain data. A finding is a fact about the
// columns: what it means for the gain is for the evidence and the causes to say.
import type { CellName, LegName } from "../cast/cast.js";

export const healthKinds = [
  "units",
  "exchanged-columns",
  "scan-order",
  "noise",
  "spikes",
  "dropouts",
  "stuck",
  "saturation",
  "bubbles",
  "late-pump",
  "slow-flow",
] as const;
export type HealthKind = (typeof healthKinds)[number];

export type Sensor = "conductivity" | "temperature" | "pressure";

export interface HealthFinding {
  readonly kind: HealthKind;
  /** Absent where it is of the whole package. */
  readonly cell?: CellName;
  readonly sensor: Sensor;
  /** Absent where it is of both. */
  readonly leg?: LegName;
  /** First and last scan, both included. */
  readonly scans: { readonly from: number; readonly to: number };
  /** Shallowest and deepest among these scans; absent where none has a pressure. */
  readonly pressure_dbar?: { readonly from: number; readonly to: number };
  readonly size: { readonly value: number; readonly unit: string };
  /** What was seen, with its numbers, as a sentence. */
  readonly what: string;
  /** What to do about it, as a sentence. */
  readonly mend: string;
  /** This part of the cast should not be judged. */
  readonly serious: boolean;
}

/** How salinity settles when the package stops, in multiples of what the usual thermal lag makes it. */
export interface Settling {
  readonly times: number;
  readonly standardError: number;
  /** Stops that showed it. */
  readonly stops: number;
}

/** The numbers of one cell, for a comparison from cast to cast. */
export interface CellHealth {
  /** Standard deviation of white noise from scan to scan in the calm parts; at coarse sampling an upper limit. */
  readonly conductivityNoise_mS_cm: number;
  readonly temperatureNoise_K: number;
  /** Spikes among 1000 scans in the water. */
  readonly conductivitySpikes: number;
  readonly temperatureSpikes: number;
  /** Scans in the water without a reading that can be true, as a share of all. */
  readonly conductivityDropouts: number;
  readonly temperatureDropouts: number;
  /** Absent where fewer than four stops showed it, or scans are more than 2 s apart. */
  readonly settling?: Settling;
}
