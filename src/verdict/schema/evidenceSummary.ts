// What one line of evidence says by itself.
import { z } from "zod";
import { evidenceLines } from "../../evidence/lines.js";
import { cellName, probability, standardUncertainty } from "./parts.js";

const shownLines = evidenceLines.filter(({ shown }) => shown).map(({ name }) => name);

export const evidenceSummary = z
  .strictObject({
    line: z.enum(shownLines),
    cell: z.enum([...cellName.options, "both"]),
    n: z.int().positive(),
    ppm: z.number(),
    standardUncertainty,
    weight: probability.describe(
      "Its share of the precision of all lines of this cast that speak of the cell",
    ),
    leftOut: z.array(z.strictObject({ what: z.string(), why: z.string() })),
    notes: z.array(z.string()),
  })
  .describe("What one line of evidence says by itself");
