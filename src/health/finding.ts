// A fault of a sensor on one cast, as plain data. A finding is a fact about the columns; the evidence and the causes decide
// its meaning for the gain.
import * as z from "zod";
import type { Immutable } from "../immutable.js";

export const healthKinds = [
  "units",
  "exchanged-columns",
  "scan-order",
  "noise",
  "spikes",
  "dropouts",
  "stuck",
  "saturation",
  "coarse-steps",
  "bubbles",
  "late-pump",
  "slow-flow",
] as const;
export type HealthKind = (typeof healthKinds)[number];

const sensor = z.enum(["conductivity", "temperature", "pressure"]);
export type Sensor = z.infer<typeof sensor>;

const range = z.strictObject({ from: z.number(), to: z.number() });

export const healthFinding = z
  .strictObject({
    kind: z.enum(healthKinds),
    cell: z
      .enum(["primary", "secondary"])
      .exactOptional()
      .describe("Absent for a fault of the whole package"),
    sensor,
    leg: z.enum(["down", "up"]).exactOptional().describe("Absent for a fault on both"),
    scans: range.describe("First and last scan, both included"),
    pressure_dbar: range
      .exactOptional()
      .describe("Shallowest and deepest of these scans; absent without pressure"),
    size: z.strictObject({ value: z.number(), unit: z.string() }),
    what: z.string().describe("The observation with its numbers, as a sentence"),
    mend: z.string().describe("The action, as a sentence"),
    serious: z.boolean().describe("Do not use this part of the cast"),
  })
  .describe("A fault in the readings of a sensor");
export type HealthFinding = Immutable<z.infer<typeof healthFinding>>;

/** Settling of salinity after the package stops, as a multiple of that from the usual thermal lag. */
export interface Settling {
  readonly times: number;
  readonly standardError: number;
  /** Number of stops that showed it. */
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
  /** Scans in the water without a possible reading, as a share of all. */
  readonly conductivityDropouts: number;
  readonly temperatureDropouts: number;
  /** Absent if fewer than four stops showed it, or scans are more than 2 s apart. */
  readonly settling?: Settling;
}
