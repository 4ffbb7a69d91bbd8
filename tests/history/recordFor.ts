// An invented record, with what a test wants of it.
import type { CellRecord } from "../../src/history/cellRecord.js";

export function recordFor(more: Partial<CellRecord> = {}): CellRecord {
  const gain = { ppm: -12, standardUncertainty: 10 };
  return {
    format: "foulcast-history/1",
    cruise: "RV Quillwort, spring (invented)",
    cruiseStart: "2021-05-03T06:00:00.000Z",
    serial: "K-17",
    cell: "primary",
    from: { cast: "001", start: "2021-05-03T06:00:00.000Z" },
    to: { cast: "014", start: "2021-05-07T14:00:00.000Z" },
    casts: 14,
    calibrated: "2021-01-10",
    target: 0.002,
    gainError: { first: gain, last: gain },
    cleanGain: { first: gain, last: gain },
    pressureResponse: { ppmPer1000dbar: 3, standardUncertainty: 4 },
    response: { lag: { value: 1.1, standardUncertainty: 0.1 } },
    films: [],
    cleanings: [],
    shifts: [],
    calibrations: [],
    software: { name: "foulcast", version: "0.1.0" },
    ...more,
  };
}

/** A cleaning that left this share of a film. */
export function cleaning(
  intensity: CellRecord["cleanings"][number]["intensity"],
  retained: number,
  film: "step" | "drift" = "step",
): CellRecord["cleanings"][number] {
  return {
    afterCast: "008",
    intensity,
    film,
    filmProbability: 0.95,
    retained,
    standardUncertainty: 0.05,
  };
}
