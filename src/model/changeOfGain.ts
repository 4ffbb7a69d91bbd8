// The onset of the present gain.
import * as z from "zod";
import type { Immutable } from "../immutable.js";
import { legName, probability } from "./parts.js";

export const changeOfGain = z
  .strictObject({
    kind: z.enum(["none", "transient", "step", "drift"]),
    sinceCast: z.string().exactOptional().describe("The first cast that shows it"),
    when: z
      .enum(["from the start", "before", "within", "after"])
      .exactOptional()
      .describe("From the start of the cruise, or before, within or after the cast `sinceCast`"),
    leg: legName.exactOptional(),
    pressure_dbar: z.number().exactOptional(),
    probability,
  })
  .describe("Onset of the present gain");

export type ChangeOfGain = Immutable<z.infer<typeof changeOfGain>>;
