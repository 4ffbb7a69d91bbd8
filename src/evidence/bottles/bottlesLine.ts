// The line `bottles`: reference bottles observe the gain of a cell on the up leg.
import type { EvidenceLine } from "../evidenceLine.js";
import { atClosures } from "./atClosures.js";
import {
  type BottleNoise,
  bottleNoise,
  type Departure,
  usualBottleNoise,
  usualRun_ppm,
  wakeDepth_dbar,
} from "./bottleNoise.js";
import { bottleResiduals } from "./bottleResiduals.js";
import { judgeBottles } from "./bottles.js";
import { type ClosureReadings, closuresFromStored, readClosures } from "./closuresRead.js";
import { withoutExchangedBottles } from "./exchangedBottles.js";
import {
  exchangedWith,
  latestScattered,
  type ScatteredSalinities,
  scatteredSalinities,
  withoutExchanged,
} from "./exchangedSalinities.js";
import { passToCast, type RunBefore } from "./laboratoryRuns.js";

/** The results of the bottles of a cruise so far. */
interface BottlesMemory {
  /** Departures within the latest casts, cast by cast. */
  readonly departures: readonly (readonly Departure[])[];
  /** The scatter of this cruise's bottles. */
  readonly noise: BottleNoise;
  /** The latest casts whose salinities do not follow their CTD. */
  readonly scattered: readonly ScatteredSalinities[];
  /** The laboratory run of the latest measured cast. */
  readonly run: RunBefore;
}

/** The noise is estimated from this many casts: enough for 10 %, and its cost does not grow with the cruise (judgement). */
const latestCasts = 20;

export const bottlesLine: EvidenceLine<BottlesMemory, ClosureReadings> = {
  name: "bottles",
  ofGain: true,
  shown: true,
  sharedErrors: [
    {
      // The standardisation error of a laboratory run.
      name: "run",
      unit: "ppm",
      evolution: { kind: "independent" },
      noise: { usual: usualRun_ppm, logSd: 0.6 },
    },
    {
      // What all samples of a cruise share. The labels of batches of standard seawater differ by 0.0003, 8 ppm [KawanoEtAl2006].
      // Samples gain a little by evaporation, and ratios are read with one instrument: another 0.0002, 6 ppm (judgement).
      name: "batch",
      unit: "ppm",
      prior: { sd: 8 },
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
      prior: { sd: 0.7 },
      evolution: { kind: "constant" },
    },
  ],
  begin: { departures: [], noise: usualBottleNoise, scattered: [], run: "none" },
  read: ({ cast, cells, scans: { data, legs, thin, within }, bottles }) => {
    const lags = Object.fromEntries(
      Object.entries(within.compared).map(([cell, { found }]) => [cell, found.lag]),
    );
    const { start } = cast;
    const settings = { legs, lags, ...(start === undefined ? {} : { start }) };
    return readClosures(bottles, cells, data, thin, settings);
  },
  observe: ({ cast, cells, bottles, copied }, before, read) => {
    const { run, passed } = passToCast(before.run, bottles);
    const { reader, gradients } = closuresFromStored(read, bottles, cells);
    const compared = bottleResiduals(bottles, cells, reader, gradients, copied);
    const scattered = scatteredSalinities(cast.id, compared);
    const other = scattered && exchangedWith(scattered, before.scattered);
    const residuals =
      other === undefined
        ? withoutExchangedBottles(compared)
        : withoutExchanged(compared, cast.id, other);
    // The scatter of the cast itself counts for the noise with which its bottles are checked.
    const own = judgeBottles(cast.id, residuals, cells, before.noise).departures;
    const departures =
      own.length === 0 ? before.departures : [...before.departures, own].slice(-latestCasts);
    const noise = bottleNoise(departures.flat());
    const { evidence, byCell } = judgeBottles(cast.id, residuals, cells, noise);
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
      memory: {
        departures,
        noise,
        scattered: latestScattered(before.scattered, scattered),
        run,
      },
      ...(passed === undefined ? {} : { evolutions: { run: passed } }),
    };
  },
};
