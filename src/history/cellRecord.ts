// The results of one cruise for one cell: a line of its history. Plain data that goes through JSON.
import * as z from "zod";
import { intensityNames } from "../cast/maintenance.js";
import type { Immutable } from "../immutable.js";
import { cellName, probability, standardUncertainty } from "../model/parts.js";
import { historyFormat } from "./historyFormat.js";

const ppm = z.strictObject({ ppm: z.number(), standardUncertainty });
const known = z.strictObject({ value: z.number(), standardUncertainty });
const castAt = z.strictObject({ cast: z.string(), start: z.iso.datetime().exactOptional() });
const firstAndLast = z.strictObject({ first: ppm, last: ppm });
const filmKind = z.enum(["step", "drift", "unknown"]);

export const cellRecordSchema = z
  .strictObject({
    format: z.literal(historyFormat),
    cruise: z.string().min(1),
    cruiseStart: z.iso.datetime().exactOptional().describe("Start of its first cast"),
    serial: z.string().min(1).describe("Serial number of the cell"),
    cell: cellName.describe("Its position, on its last cast"),
    from: castAt,
    to: castAt,
    casts: z.int().min(1),
    inWater_hours: z
      .number()
      .min(0)
      .exactOptional()
      .describe("From the casts with times; absent if there are none"),
    calibrated: z
      .string()
      .exactOptional()
      .describe("Day of the calibration of its last readings; absent if unknown"),
    target: z.number().positive().describe("Required salinity accuracy of the cruise, PSS-78"),
    gainError: firstAndLast.describe("At the end of the up leg, at atmospheric pressure"),
    cleanGain: firstAndLast.describe("Gain of the clean cell"),
    pressureResponse: z.strictObject({ ppmPer1000dbar: z.number(), standardUncertainty }),
    response: z
      .strictObject({ lag: known.exactOptional(), delay: known.exactOptional() })
      .describe(
        "Usual thermal lag, as a multiple of that of a usual cell, and delay of conductivity, s",
      ),
    films: z.array(
      z.strictObject({
        cast: z.string().describe("The first cast with fouling as the cause"),
        sinceCast: z.string().exactOptional().describe("The first cast after it came"),
        kind: filmKind,
        casts: z.int().min(1),
        largest: ppm.describe("Its largest effect on the gain"),
      }),
    ),
    filmAtEnd: ppm
      .extend({ probability })
      .exactOptional()
      .describe("Film after the last cast, if that cast was fouled and no cleaning followed"),
    cleanings: z.array(
      z.strictObject({
        afterCast: z.string(),
        intensity: z.enum(intensityNames),
        film: filmKind.describe("Kind of the film"),
        filmProbability: probability,
        retained: probability.describe("Remaining share of the film"),
        standardUncertainty,
      }),
    ),
    shifts: z.array(z.strictObject({ sinceCast: z.string(), change: ppm })),
    calibrations: z
      .array(
        z.strictObject({ afterCast: z.string().exactOptional(), time: z.string().exactOptional() }),
      )
      .describe("During the cruise or after its last cast, in order"),
    software: z.strictObject({ name: z.string(), version: z.string() }),
  })
  .meta({
    title: "foulcast history",
    description: "The results of one cruise for one conductivity cell",
  });

export type CellRecord = Immutable<z.infer<typeof cellRecordSchema>>;

/** Records with the same key are of one cell on one cruise: a later one replaces an earlier one. */
export function recordKey({ cruise, serial, cruiseStart }: CellRecord): string {
  return JSON.stringify([cruise, serial, cruiseStart ?? null]);
}
