// What to do with a cell before the next station: types derived from adviceSchema.ts, the one definition.
import type * as z from "zod";
import type { Immutable } from "../../immutable.js";
import type { adviceSchema, alternative } from "./adviceSchema.js";

export type Advice = Immutable<z.infer<typeof adviceSchema>>;
export type Alternative = Immutable<z.infer<typeof alternative>>;
export type SolutionToMake = Advice["solutions"][number];
