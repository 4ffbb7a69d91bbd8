// `foulcast/steps`: the steps from a cast to a verdict, for people who want only one. Unstable: these names and types
// change with any release.

// A cast: its legs, and the response of the sensors
export { type Legs, splitLegs } from "./cast/splitLegs.js";
// Causes, and the filter that tracks the cells
export { causes } from "./causes/index.js";
// Lines of evidence
export type { EntriesAround } from "./evidence/air/airReadings.js";
export { airZeroEvidence } from "./evidence/air/airZero.js";
export { bottlesEvidence } from "./evidence/bottles/bottles.js";
export {
  type DeepWaterMemory,
  type DeepWaterOfCast,
  deepWaterEvidence,
  noDeepWaterYet,
} from "./evidence/deepWater/deepWater.js";
export type { DeepWaterStep } from "./evidence/deepWater/deepWaterNoise.js";
export { legsEvidence } from "./evidence/legs/legs.js";
export { pairEvidence } from "./evidence/pair/pair.js";
export { pairDifferences } from "./evidence/pair/pairDifferences.js";
export { type CellsOnPath, cellsOnPath } from "./evidence/path/cellsOnPath.js";
export type { Excursion } from "./evidence/path/excursion.js";
export { excursionsOnCast } from "./evidence/path/excursionsOnCast.js";
export { type PairOnset, pairOnset } from "./evidence/path/pairOnset.js";
export { temperaturePairEvidence } from "./evidence/thermometers/temperaturePair.js";
// Input of the figures
export type {
  BottleResidual,
  CellLegs,
  FigureCast,
  PairValue,
  PlacedValue,
  Profile,
} from "./figures/figureData.js";
export { type CastHealth, castHealth } from "./health/castHealth.js";
export type { CellHealth, HealthFinding, HealthKind, Settling } from "./health/finding.js";
export type { Cause } from "./model/cause.js";
export { type Noise, usualNoise } from "./model/noise.js";
export type { LeftOut, LineResult, Observation, Onset } from "./model/observation.js";
export type { Alignment, TimeMismatch } from "./response/alignment/alignment.js";
export type { CellLag } from "./response/lag/lagPrior.js";
export type { LagParts, ThermalLagOnCast } from "./response/lag/thermalLagOnCast.js";
export {
  type CellResponseCorrection,
  type ResponseCorrection,
  removeSensorResponse,
} from "./response/removeSensorResponse.js";
export { type ResponseChange, responseChanges } from "./response/responseChanges.js";
export { type SensorResponse, sensorResponse } from "./response/sensorResponse.js";
export type { UsualValue } from "./response/usualResponse.js";
export { type SmoothedCruise, smooth } from "./track/smooth.js";
export { track } from "./track/track.js";
export type { TrackedCast, TrackedInput } from "./track/tracked.js";
