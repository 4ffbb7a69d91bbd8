// Schema of the verdict on one cast.
import * as z from "zod";
import { intensityNames } from "../../cast/maintenance.js";
import { adviceSchema } from "../../cleaning/decision/adviceSchema.js";
import { healthFinding } from "../../health/finding.js";
import { cellName, probability, standardUncertainty } from "../../model/parts.js";
import { cellVerdict } from "./cellVerdict.js";
import { dataQuality } from "./dataQuality.js";
import { responseSeen } from "./responseSeen.js";
import { shownSummary } from "./shownSummary.js";

export const cleaningSeen = z
  .strictObject({
    afterCast: z.string(),
    cell: cellName,
    intensity: z.enum(intensityNames),
    retained: probability,
    standardUncertainty,
  })
  .describe("Share of the film that a cleaning left, estimated from the casts around it");

export const castVerdict = z.strictObject({
  cast: z.string(),
  start: z.string().exactOptional(),
  cells: z.partialRecord(cellName, cellVerdict),
  advice: adviceSchema.describe("For all cells together: the action, and the cells that need it"),
  cleaned: z
    .array(cleaningSeen)
    .min(1)
    .exactOptional()
    .describe("Cleanings with an outcome that this cast shows first, or shows to be different"),
  evidence: z.array(shownSummary),
  response: z
    .partialRecord(cellName, responseSeen)
    .exactOptional()
    .describe("Absent if the scans do not show it"),
  health: z.array(healthFinding).min(1).exactOptional().describe("Absent if no fault was found"),
  wouldDecide: z.array(z.string()).describe("Measurements that would settle an open verdict"),
  data: dataQuality,
  notes: z.array(z.string()).describe("Further facts for the reader"),
});
