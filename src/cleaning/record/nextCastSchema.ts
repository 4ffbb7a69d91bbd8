// Schema of the list before the next cast, as plain data that goes through JSON. The only definition: due.ts, battery.ts
// and beforeNextCast.ts derive their types from it.
import * as z from "zod";
import { batteryKinds } from "../../cast/maintenance.js";
import { hazards } from "../cautions.js";
import { occasions } from "./occasions.js";

export const dueSchema = z
  .strictObject({
    when: z.enum(occasions),
    what: z.string(),
    because: z.string(),
    hazards: z
      .array(z.enum(hazards))
      .describe("Hazards for the people who do it; cautionsOfDue has the words"),
  })
  .describe("Work that is due, with its time and reason");

export const batteryTrendSchema = z.strictObject({
  kind: z.enum(batteryKinds),
  volts: z.number().describe("Voltage of the pack at its last check, V"),
  least: z.number().describe("Required voltage, V"),
  checks: z.number().int().describe("Number of usable checks of this pack"),
  castsSince: z.number().int().describe("Casts since its last check"),
  perCast: z
    .strictObject({ volts: z.number(), standardUncertainty: z.number() })
    .exactOptional()
    .describe(
      "Change of the pack's voltage per cast, V. Absent with fewer than two checks, or without a cast between them",
    ),
  castsLeft: z
    .number()
    .int()
    .exactOptional()
    .describe(
      "Number of casts from now on for which the voltage stays above `least` with 95 % probability. At most three times the range of the checks. Absent without a recent trend, and for a kind with a constant voltage",
    ),
});

export const beforeNextCastSchema = z.strictObject({
  due: z.array(dueSchema).describe("In the order of the work"),
  battery: batteryTrendSchema
    .exactOptional()
    .describe("Absent if the record has no usable battery check"),
  cautions: z.array(z.string()),
});
