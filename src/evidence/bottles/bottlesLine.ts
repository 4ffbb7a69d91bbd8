// The line `bottles`: reference bottles observe the gain of a cell on the up leg.
import type { EvidenceLine } from "../evidenceLine.js";
import { atClosures } from "./atClosures.js";
import { bottleNoiseScale, wakeDepth_dbar } from "./bottleNoise.js";
import { bottleResiduals } from "./bottleResiduals.js";
import { judgeBottles } from "./bottles.js";
import { type ClosureReadings, closuresFromStored, readClosures } from "./closuresRead.js";
import { runOfCast } from "./laboratoryRuns.js";

/** The results of the bottles of a cruise so far. */
interface BottlesMemory {
  /** Residuals within casts, in standard deviations, cast by cast. */
  readonly standardised: readonly (readonly number[])[];
  /** The scatter of this cruise's bottles relative to the usual. */
  readonly scale: number;
  /** The laboratory run of the cast before. */
  readonly run?: string;
}

export const bottlesLine: EvidenceLine<BottlesMemory, ClosureReadings> = {
  name: "bottles",
  ofGain: true,
  shown: true,
  sharedErrors: [
    {
      // The standardisation error of a laboratory run. Ampoules scatter by 0.0003 in salinity, 8 ppm [KawanoEtAl2006]; whole
      // stations of good cruises move by twice that [CruiseReports2022].
      name: "run",
      unit: "ppm",
      prior: { mean: 0, sd: 0 },
      evolution: { kind: "independent" },
      noise: { usual: 12, logSd: 0.5 },
    },
    {
      // What all samples of a cruise share. The labels of batches of standard seawater differ by 0.0003, 8 ppm [KawanoEtAl2006].
      // Samples gain a little by evaporation, and ratios are read with one instrument: another 0.0002, 6 ppm (judgement).
      name: "batch",
      unit: "ppm",
      prior: { mean: 0, sd: 8 },
      evolution: { kind: "constant" },
    },
    {
      // The depth from which the wake brings water into bottles.
      name: "wake",
      unit: "dbar",
      prior: wakeDepth_dbar,
      evolution: { kind: "constant" },
    },
    {
      // In gradients, bottles have a common error, cast after cast: from lag, swell and the water that the frame drags
      // along. Unit: standard deviations of a bottle's own error there (judgement).
      name: "bottlesInGradients",
      unit: "times",
      prior: { mean: 0, sd: 0.7 },
      evolution: { kind: "constant" },
    },
  ],
  begin: { standardised: [], scale: 1 },
  read: ({ cast, cells, scans: { data, legs, thin }, bottles }) =>
    readClosures(bottles, cells, data, legs, thin, cast.start),
  observe: ({ cast, cells, bottles, copied }, before, read) => {
    const run = runOfCast(bottles);
    const { reader, gradients } = closuresFromStored(read, bottles, cells);
    const residuals = bottleResiduals(bottles, cells, reader, gradients, copied);
    // The scatter of the cast itself counts for the scale at which its bottles are checked.
    const own = judgeBottles(cast.id, residuals, cells, before.scale).standardised;
    const standardised = own.length === 0 ? before.standardised : [...before.standardised, own];
    const scale = bottleNoiseScale(standardised.flat());
    const { evidence, byCell } = judgeBottles(cast.id, residuals, cells, scale);
    return {
      lines:
        bottles.length === 0
          ? []
          : [
              {
                ...evidence,
                // Without scans the pair is read at the closures.
                observations:
                  read === undefined
                    ? evidence.observations
                    : [...evidence.observations, ...atClosures(cast.id, residuals.residuals)],
              },
            ],
      byCell,
      memory: { standardised, scale, ...(run === undefined ? {} : { run }) },
      ...(run !== undefined && run === before.run
        ? { evolutions: { run: { kind: "constant" } as const } }
        : {}),
    };
  },
};
