// A file read for a cruise: its used and unused parts.
import * as z from "zod";
import type { Immutable } from "../immutable.js";

/** A row of a file that could not be used, and the reason. */
const leftOutRow = z.strictObject({ line: z.int(), why: z.string() });
export type LeftOutRow = Immutable<z.infer<typeof leftOutRow>>;

export const inputFile = z
  .strictObject({
    name: z.string(),
    role: z.enum(["cruise", "cast", "bottles", "maintenance", "reference"]),
    sha256: z
      .string()
      .exactOptional()
      .describe("SHA-256 of its bytes, hexadecimal; absent if the text did not come from a file"),
    part: z
      .string()
      .exactOptional()
      .describe("The profile in the file; absent if the file has only one"),
    rows: z.int().min(0).describe("Number of data rows, including the excluded ones"),
    leftOut: z.array(leftOutRow),
    notes: z.array(z.string()).describe("Assumptions and odd values"),
  })
  .describe("A file that went into the cruise");
export type InputFile = Immutable<z.infer<typeof inputFile>>;
