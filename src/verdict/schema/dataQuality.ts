// Schema of the data quality.
import * as z from "zod";

export const dataQuality = z
  .enum(["sound", "usable-after-correction", "questionable", "bad"])
  .describe("Whether the data can be used");
