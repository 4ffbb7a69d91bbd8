// Schema of the advice for a cell before the next station, as plain data that goes through JSON. The only definition:
// advice.ts derives the types from it.
import * as z from "zod";
import { intensityNames } from "../../cast/maintenance.js";

const probability = z.number().min(0).max(1);
const intensity = z.enum(intensityNames);
const minutes = z.number().min(0).describe("Hands-on, on this instrument");

export const alternative = z
  .strictObject({
    intensity,
    minutes,
    probabilityWithinTarget: probability.describe(
      "Probability that the film left at the next station is within the target",
    ),
    expectedLoss: z.number().describe("Expected loss in minutes of ship's time"),
    fits: z
      .boolean()
      .describe("Whether it fits the time, the instrument, the people and the record"),
    whyNot: z.string().exactOptional().describe("The reason; absent for the chosen intensity"),
  })
  .describe("One intensity of the ladder, compared with the others");

const cell = z.enum(["primary", "secondary"]);

const solution = z
  .strictObject({
    cells: z.array(cell).min(1).describe("The cells it is for"),
    kind: z.enum(["detergent", "hypochlorite", "acid"]),
    name: z.string(),
    concentration: z
      .number()
      .positive()
      .describe(
        "Detergent in % by volume, hypochlorite in ppm of available chlorine, acid in mol/l",
      ),
    unit: z.string(),
    volume_ml: z.number().positive().describe("To make up, for all these cells together"),
  })
  .describe("A solution to make up");

export const adviceSchema = z
  .strictObject({
    cells: z.array(cell).min(1).describe("The cells it is for"),
    decidedBy: cell.describe(
      "The cell of expectedResidual and alternatives: of several cells the one that is hardest to restore",
    ),
    intensity,
    deepClean: z.boolean().describe("Soak or harder"),
    action: z.string().describe("The action, in plain words"),
    minutes,
    steps: z.array(z.string()).min(1),
    materials: z.array(z.string()),
    solutions: z.array(solution),
    cautions: z.array(z.string()).min(1).describe("Shown together with the steps"),
    expectedResidual: z
      .strictObject({
        salinity: z.number().describe("Its salinity error at SP 35, PSS-78; negative reads fresh"),
        standardUncertainty: z
          .number()
          .min(0)
          .describe("Standard uncertainty of that salinity error"),
        ppm: z.number(),
        probabilityWithinTarget: probability,
      })
      .describe("The film expected at the next station after this cleaning"),
    because: z.string().describe("The reason, in one sentence with the numbers"),
    alternatives: z
      .array(alternative)
      .length(intensityNames.length)
      .describe("All six, lightest first"),
    sensitivity: z
      .array(z.string())
      .describe("Changes that would alter the advice, one sentence each"),
  })
  .describe("The action for a cell before the next station, with the reason");
