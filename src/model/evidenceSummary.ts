// The result of one line of evidence alone.
import * as z from "zod";
import type { Immutable } from "../immutable.js";
import { cellName, probability, standardUncertainty } from "./parts.js";

/** For any line; the schema of the verdict lists the existing lines. */
export const evidenceSummary = z.strictObject({
  line: z.string(),
  cell: z.enum([...cellName.options, "both"]),
  n: z.int().positive(),
  ppm: z.number(),
  standardUncertainty,
  weight: probability.describe("Its share of the precision of all lines of this cast on the cell"),
  leftOut: z.array(z.strictObject({ what: z.string(), why: z.string() })),
  notes: z.array(z.string()),
});

export type EvidenceSummary = Immutable<z.infer<typeof evidenceSummary>>;
