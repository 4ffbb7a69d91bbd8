// What several parts of a verdict are made of.
import { z } from "zod";

export const probability = z.number().min(0).max(1);
export const standardUncertainty = z.number().min(0);
export const cellName = z.enum(["primary", "secondary"]);
export const legName = z.enum(["down", "up"]);

export const estimate = z
  .strictObject({
    ppm: z.number(),
    standardUncertainty,
    interval95: z.tuple([z.number(), z.number()]),
  })
  .describe("In ppm of conductivity: measured = true x (1 + ppm x 1e-6)");

export const dataQuality = z
  .enum(["sound", "usable-after-correction", "questionable", "bad"])
  .describe("Whether the data can be used");
