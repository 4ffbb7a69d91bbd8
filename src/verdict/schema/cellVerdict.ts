// Schema of the verdict on one cell on one cast.
import * as z from "zod";
import { causeNames } from "../../causes/index.js";
import { adviceSchema } from "../../cleaning/decision/adviceSchema.js";
import { changeOfGain } from "../../model/changeOfGain.js";
import { estimateSchema, probability, standardUncertainty } from "../../model/parts.js";
import { dataQuality } from "./dataQuality.js";

export const causeProbability = z.strictObject({
  cause: z.enum(causeNames),
  probability,
  because: z.string(),
});

export const forecast = z.strictObject({
  hours: z.number().positive().describe("From the start of this cast to the next"),
  gainError: estimateSchema,
  probabilityBeyondTarget: probability.describe(
    "Probability that the salinity error at SP 35 is then beyond the target",
  ),
});

export const cellVerdict = z.strictObject({
  serial: z
    .string()
    .exactOptional()
    .describe(
      "Serial number of the cell on this cast; absent if neither the cruise nor the record names it",
    ),
  gainError: z
    .strictObject({ down: estimateSchema, up: estimateSchema, now: estimateSchema })
    .describe(
      "At atmospheric pressure: at the start of the down leg, at the end of the up leg, and now. For the latest cast, now is after the maintenance recorded since",
    ),
  cleanGain: estimateSchema.describe("Gain error of the clean cell: its calibration residual"),
  pressureResponse: z
    .strictObject({ ppmPer1000dbar: z.number(), standardUncertainty })
    .describe("Change of the gain with pressure"),
  salinityError: z
    .strictObject({
      at35: z.number(),
      standardUncertainty,
      inSitu: z
        .number()
        .exactOptional()
        .describe(
          "In the deepest water, from gain, pressure response, offset and thermometer together. Absent if no water was read",
        ),
      inSituStandardUncertainty: standardUncertainty.exactOptional(),
    })
    .describe("Error of Practical Salinity from the gain error of the up leg"),
  temperatureError: z
    .strictObject({ millikelvin: z.number(), standardUncertainty })
    .exactOptional()
    .describe("Error of the thermometer of the cell; absent without evidence of it"),
  additiveOffset: z
    .strictObject({ microsiemens_cm: z.number(), standardUncertainty })
    .exactOptional()
    .describe("Reading of the cell in air; absent if it was not read in air"),
  change: changeOfGain,
  causes: z.array(causeProbability).min(1).describe("Most probable first, summing to one"),
  forecast,
  advice: adviceSchema,
  data: dataQuality,
  contradictions: z
    .array(
      z.strictObject({
        line: z.string(),
        residual: z.number().describe("Observed minus expected, mean over the line, ppm"),
        standardised: z.number().describe("The same in standard deviations"),
      }),
    )
    .min(1)
    .exactOptional()
    .describe("Lines of evidence that the verdict contradicts by more than 4 standard deviations"),
});
