// The advice for a cell before the next station. The types are derived from adviceSchema.ts, the only definition.
import type * as z from "zod";
import type { Immutable } from "../../immutable.js";
import type { adviceSchema, alternative } from "./adviceSchema.js";

export type Advice = Immutable<z.infer<typeof adviceSchema>>;
export type Alternative = Immutable<z.infer<typeof alternative>>;
export type SolutionToMake = Advice["solutions"][number];
