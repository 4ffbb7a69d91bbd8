// Invented cruises with known truth: the events, and the readings of sensors and bottles.

// Its parts
export { simulateBottles } from "./bottles.js";
export { simulateCast } from "./cast.js";
// The truth
export type { CellTruth } from "./cellTruth.js";
export {
  type ThermalLag,
  thermalLagOfLayers,
  thermalLagOfScans,
  usualLag,
} from "./cellWallHeat.js";
export { completed } from "./completed.js";
export { type SimulatedCruise, simulateCruise } from "./cruise.js";
// The whole
export { cruiseFiles } from "./cruiseFiles.js";
export type {
  AdditiveOffset,
  CalibrationShift,
  Cleaning,
  FilmGrowth,
  FilmStep,
  FlowLoss,
  Front,
  LeakingBottle,
  Misalignment,
  MisTrip,
  PlaceInCast,
  PressureResponse,
  ReadingInAir,
  ReferenceOffset,
  Shed,
  SimulatedEvent,
  TemperatureError,
  ThermalLagFactor,
  Transient,
} from "./events.js";
// The tools
export { type OceanName, oceanNames } from "./oceans.js";
export { type RandomStream, randomStream } from "./random.js";
export { randomScenario } from "./randomScenario.js";
export type {
  Averages,
  CompleteScenario,
  Laboratory,
  Scenario,
  TimeInAir,
  TimeSeries,
} from "./scenario.js";
export { usualLaboratory } from "./scenario.js";
export { leastNamed } from "./trueCauses.js";
export { type CastTruth, filmAt, gainAt, type Truth, truthOf } from "./truth.js";
export { type CastWater, type Parcel, waterOf } from "./water.js";
