// The schema of the verdict document, as plain data that goes through JSON. It is the only definition: verdict.ts derives
// the types from it, and `npm run schema` the JSON Schema docs/verdict.schema.json. Unknown keys are refused. Its parts are
// in schema/.
import * as z from "zod";
import { inputFile } from "../cast/inputFile.js";
import { beforeNextCastSchema } from "../cleaning/record/nextCastSchema.js";
import { castVerdict } from "./schema/castVerdict.js";
import { verdictFormat } from "./verdictFormat.js";

/** Checks a whole verdict document, as written by `foulcast assess --json`. */
export const verdictSchema = z
  .strictObject({
    format: z.literal(verdictFormat),
    cruise: z.strictObject({
      name: z.string(),
      note: z.string().exactOptional(),
      target: z.number().positive().describe("Salinity accuracy required, PSS-78"),
      timeZone: z.string().exactOptional().describe("Time on board minus UTC, such as +02:00"),
    }),
    settings: z
      .strictObject({
        // Less than even odds is no confidence (judgement).
        confidence: z
          .number()
          .min(0.5)
          .max(1)
          .describe("Required probability that a cleaning meets the target"),
        procedure: z.enum(["usual", "the ship's own"]),
        trainedHands: z.boolean().exactOptional().describe("Absent if not stated"),
      })
      .describe("Settings of the caller, or the defaults"),
    casts: z.array(castVerdict).min(1),
    latest: z.string().describe("Id of the last cast"),
    beforeNextCast: beforeNextCastSchema
      .exactOptional()
      .describe("Work that is due according to the record; absent without a record"),
    software: z.strictObject({ name: z.string(), version: z.string() }),
    inputs: z.array(inputFile),
  })
  .meta({
    title: "foulcast verdict",
    description: "Verdicts on the conductivity cells of a cruise, cast by cast",
  });
