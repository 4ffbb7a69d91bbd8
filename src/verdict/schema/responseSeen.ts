// Schema of the response of one cell and its thermometer on a cast.
import * as z from "zod";
import { standardUncertainty } from "../../model/parts.js";

/** Absent if there are too few earlier casts for a comparison. */
const besideUsual = {
  usual: z.number().exactOptional().describe("The same on the casts before"),
  differs: z.boolean().exactOptional(),
};

export const responseSeen = z
  .strictObject({
    alignment: z
      .strictObject({ seconds: z.number(), standardUncertainty, ...besideUsual })
      .exactOptional()
      .describe("Seconds by which conductivity comes later than temperature"),
    thermalLag: z
      .strictObject({
        timesUsual: z
          .number()
          .describe("Salinity error in a steady gradient, as a multiple of a usual cell's"),
        standardUncertainty,
        alpha: z.number().exactOptional().describe("Amplitude, where the cast tells it"),
        alphaStandardUncertainty: standardUncertainty.exactOptional(),
        tau_s: z.number().exactOptional().describe("Time constant, where the cast tells it"),
        tauStandardUncertainty_s: standardUncertainty.exactOptional(),
        ...besideUsual,
      })
      .exactOptional(),
    changes: z
      .array(z.string())
      .describe("How it differs from the casts before: a sign of a failing pump or a clogged line"),
  })
  .describe("How one cell and its thermometer answered on this cast");
