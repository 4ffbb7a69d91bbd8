// Schemas for the parts of a verdict and for the numbers behind it; the types are derived from them.
import * as z from "zod";
import type { Immutable } from "../immutable.js";

export const probability = z.number().min(0).max(1);
export const standardUncertainty = z.number().min(0);
export const cellName = z.enum(["primary", "secondary"]);
export const legName = z.enum(["down", "up"]);

export const estimateSchema = z
  .strictObject({
    ppm: z.number(),
    standardUncertainty,
    interval95: z.tuple([z.number(), z.number()]),
  })
  .describe("In ppm of conductivity: measured = true x (1 + ppm x 1e-6)");

/** A quantity in ppm of conductivity. */
export type Estimate = Immutable<z.infer<typeof estimateSchema>>;
