// Schema of the result of one line of evidence, for the existing lines.
import * as z from "zod";
import { evidenceLines } from "../../evidence/lines.js";
import { evidenceSummary } from "../../model/evidenceSummary.js";

const shownLines = evidenceLines.filter(({ shown }) => shown).map(({ name }) => name);

export const shownSummary = evidenceSummary
  .extend({ line: z.enum(shownLines) })
  .describe("Result of one line of evidence alone");
