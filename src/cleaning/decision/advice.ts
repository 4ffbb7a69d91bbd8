// What to do with a cell before the next station: types derived from adviceSchema.ts, the one definition.
import type { z } from "zod";
import { intensityNames } from "../../cast/maintenance.js";
import type { Immutable } from "../../immutable.js";
import type { adviceSchema, alternative } from "./adviceSchema.js";

export type Advice = Immutable<z.infer<typeof adviceSchema>>;
export type Alternative = Immutable<z.infer<typeof alternative>>;

/** Of two cells' advice the harder; of the same intensity the one that is less sure to do. */
export function harderAdvice(a: Advice, b: Advice): Advice {
  const harder = intensityNames.indexOf(b.intensity) - intensityNames.indexOf(a.intensity);
  if (harder !== 0) return harder > 0 ? b : a;
  const [ofA, ofB] = [a, b].map((advice) => advice.expectedResidual.probabilityWithinTarget);
  return ofB! < ofA! ? b : a;
}
