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
      .describe("What can hurt someone who does it; cautionsOfDue has the words"),
  })
  .describe("Something that is due: what, when and why");

export const batteryTrendSchema = z.strictObject({
  kind: z.enum(batteryKinds),
  volts: z.number().describe("Of the pack at its last check, V"),
  least: z.number().describe("Least it should have, V"),
  checks: z.number().int().describe("Checks of this pack that say enough"),
  castsSince: z.number().int().describe("Casts since its last check"),
  perCast: z
    .strictObject({ volts: z.number(), standardUncertainty: z.number() })
    .exactOptional()
    .describe(
      "Change of the pack's voltage a cast, V. Absent with fewer than two checks, or none apart by a cast",
    ),
  castsLeft: z
    .number()
    .int()
    .exactOptional()
    .describe(
      "Casts from now on that the voltage stays above `least` with 95 % probability. Never more than three times what the checks span. Absent without a recent trend, and for a kind whose voltage does not tell",
    ),
});

export const beforeNextCastSchema = z.strictObject({
  due: z.array(dueSchema).describe("In the order in which it is done"),
  battery: batteryTrendSchema
    .exactOptional()
    .describe("Absent where the record has no battery check that can be judged"),
  cautions: z.array(z.string()),
});
