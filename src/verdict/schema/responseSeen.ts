// Schema of the response of one cell and its thermometer on a cast.
import * as z from "zod";
import { standardUncertainty } from "../../model/parts.js";

/** Absent if there are too few earlier casts for a comparison. */
const besideUsual = {
  usual: z.number().exactOptional().describe("Mean over the casts before"),
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
          .describe(
            "Salinity error in a steady temperature gradient, as a multiple of that of a usual cell",
          ),
        standardUncertainty,
        alpha: z
          .number()
          .exactOptional()
          .describe("Amplitude alpha, no unit; absent if the cast does not determine it"),
        alphaStandardUncertainty: standardUncertainty.exactOptional(),
        tau_s: z
          .number()
          .exactOptional()
          .describe("Time constant tau, s; absent if the cast does not determine it"),
        tauStandardUncertainty_s: standardUncertainty.exactOptional(),
        ...besideUsual,
      })
      .exactOptional(),
    changes: z
      .array(z.string())
      .describe(
        "Changes from the casts before, one sentence each: signs of a failing pump or a clogged line",
      ),
  })
  .describe("Response of one cell and its thermometer on this cast");
