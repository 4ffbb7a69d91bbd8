// The schema of an advice, for programs that read one; advice.ts says the same as a type.
import { z } from "zod";
import { intensityNames } from "../../cast/maintenance.js";

const probability = z.number().min(0).max(1);
const intensity = z.enum(intensityNames);

const cell = z.enum(["primary", "secondary"]);

const alternative = z.object({
  intensity,
  minutes: z.number().min(0),
  probabilityWithinTarget: probability,
  expectedLoss: z.number().meta({ description: "In minutes of ship's time" }),
  fits: z.boolean(),
  whyNot: z.string().exactOptional(),
});

export const adviceSchema = z
  .object({
    cells: z.array(cell).min(1).meta({ description: "The cells it is for" }),
    decidedBy: cell.meta({
      description: "The cell that expectedResidual and alternatives are of",
    }),
    intensity,
    deepClean: z.boolean().meta({ description: "Soak or harder" }),
    action: z.string(),
    minutes: z.number().min(0),
    steps: z.array(z.string()).min(1),
    materials: z.array(z.string()),
    cautions: z.array(z.string()).min(1).meta({
      description: "Shown wherever the steps are shown",
    }),
    expectedResidual: z
      .object({
        salinity: z.number(),
        standardUncertainty: z.number().min(0),
        ppm: z.number(),
        probabilityWithinTarget: probability,
      })
      .meta({ description: "The film at the next station after this cleaning, at SP 35" }),
    because: z.string(),
    alternatives: z.array(alternative).length(intensityNames.length),
    sensitivity: z.array(z.string()),
  })
  .meta({ description: "What to do with a cell before the next station, and why" });
