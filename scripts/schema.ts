// Writes docs/verdict.schema.json, the JSON Schema of a verdict document, from its definition.
import { writeFileSync } from "node:fs";
import * as z from "zod";
import { verdictSchema } from "../src/verdict/verdictSchema.js";

writeFileSync(
  "docs/verdict.schema.json",
  `${JSON.stringify(z.toJSONSchema(verdictSchema), null, 2)}\n`,
);
