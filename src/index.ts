// The public face of the pure core: no files, no globals, runs in Node, a browser, a worker, a notebook.
// Files and folders are behind `foulcast/node`, the equations of seawater alone behind `foulcast/seawater`.

// The main job
export { type AssessmentSettings, assessCast, assessCruise } from "./verdict/assessCruise.js";
export { type CorrectedCast, type CorrectedCell, correctCast } from "./verdict/correctCast.js";
export {
  type CastCorrection,
  type CellCorrection,
  type CruiseCorrection,
  correctCruise,
  type LegCorrection,
} from "./verdict/correctCruise.js";
export type {
  CauseProbability,
  CellVerdict,
  ChangeOfGain,
  CleaningSeen,
  DataQuality,
  Estimate,
  EvidenceSummary,
  Forecast,
  Verdict,
  VerdictDocument,
} from "./verdict/verdict.js";
export { verdictSchema } from "./verdict/verdictSchema.js";
export { gainForSalinity, salinityError } from "./model/salinityError.js";

// What goes in
export type { Bottle, ClosureReading } from "./cast/bottle.js";
export type { Cast, CastColumns, CellColumns, CellName, LegName } from "./cast/cast.js";
export type {
  Cruise,
  CruiseCast,
  InputFile,
  Instrument,
  LeftOutRow,
  NextStation,
} from "./cast/cruise.js";
export { defaultTarget } from "./cast/cruise.js";
export type { IntensityName, MaintenanceAction, MaintenanceEvent } from "./cast/maintenance.js";

// Reading text
export { BadInput, type Fault, faultSentence } from "./read/badInput.js";
export type { CastFacts, ReadCast } from "./read/castBuilder.js";
export { readCastCsv } from "./read/castCsv.js";
export { readExchangeCast } from "./read/exchangeCast.js";
export { type ReadBottles, readBottlesCsv } from "./read/bottlesCsv.js";
export { readExchangeBottles } from "./read/exchangeBottles.js";
export { type ReadDeepReference, readDeepReference } from "./read/deepReferenceCsv.js";
export { type ReadMaintenance, readMaintenance } from "./read/maintenanceRecord.js";
export { type CruiseDescription, readCruiseDescription } from "./read/cruiseDescription.js";
export { assembleCruise, type CruiseParts } from "./read/assembleCruise.js";

// Cleaning: the ladder, the decision, solutions, the maintenance record. Cautions go wherever steps go.
export type { Advice, Alternative } from "./cleaning/decision/advice.js";
export {
  type Belief,
  type BeliefComponent,
  type Circumstances,
  decide,
} from "./cleaning/decision/decide.js";
export { defaultLadder } from "./cleaning/ladder/intensities.js";
export type { Figure, Intensity, Ladder, Solution, Step } from "./cleaning/ladder/intensity.js";
export { ladderSchema } from "./cleaning/ladder/ladderSchema.js";
export { readLadder } from "./cleaning/ladder/readLadder.js";
export { type Costs, defaultCosts } from "./cleaning/decision/loss.js";
export {
  type CleaningOutcome,
  defaultRecovery,
  type Recovery,
  type RecoveryPrior,
  updateRecovery,
} from "./model/recovery.js";
export type { Dilution, DilutionStage } from "./cleaning/chemistry/dilution.js";
export { dilute } from "./cleaning/chemistry/dilute.js";
export { DilutionRefused } from "./cleaning/chemistry/dilutionRefused.js";
export { checkMixing, type Substance } from "./cleaning/chemistry/mixing.js";
export type {
  AcidStock,
  DetergentStock,
  HypochloriteStock,
  Stock,
} from "./cleaning/chemistry/stock.js";
export { volumeNeeded_ml } from "./cleaning/ladder/volumeNeeded.js";
export { checkRecord } from "./cleaning/record/checkRecord.js";
export type { Finding, Severity } from "./cleaning/record/recordRule.js";
export type { MaintenanceRecord, RecordCast } from "./cleaning/record/recordTimeline.js";
export { recordAlone } from "./cleaning/record/recordAlone.js";
export { recordOfCruise } from "./cleaning/record/recordOfCruise.js";
export { cautionsOfDue } from "./cleaning/record/due.js";
export { type Due, dueList, type Occasion } from "./cleaning/record/dueList.js";
export {
  type BeforeNextCast,
  beforeNextCast,
  beforeNextCastText,
  type NextCastSettings,
} from "./cleaning/record/beforeNextCast.js";
export type { BatteryTrend } from "./cleaning/record/battery.js";
export { cautionsFor, generalCautions, type Hazard } from "./cleaning/cautions.js";

// The steps between, for people who want only one
export { type Legs, splitLegs } from "./cast/splitLegs.js";
export { type CastHealth, castHealth } from "./health/castHealth.js";
export type { CellHealth, HealthFinding, HealthKind, Settling } from "./health/finding.js";
export type {
  LeftOut,
  LineOfEvidence,
  Observation,
  Onset,
} from "./model/observation.js";
export type { EntriesAround } from "./evidence/air/airReadings.js";
export { airZeroEvidence } from "./evidence/air/airZero.js";
export { bottlesEvidence } from "./evidence/bottles/bottles.js";
export { legsEvidence } from "./evidence/legs/legs.js";
export { pairDifferences, pairEvidence } from "./evidence/pair/pair.js";
export { temperaturePairEvidence } from "./evidence/thermometers/temperaturePair.js";
export {
  type DeepWaterMemory,
  type DeepWaterOfCast,
  deepWaterEvidence,
  noDeepWaterYet,
} from "./evidence/deepWater/deepWater.js";
export type { DeepWaterStep } from "./evidence/deepWater/deepWaterNoise.js";
export type { DeepReference } from "./cast/deepReference.js";
export { type CellsOnPath, cellsOnPath } from "./evidence/path/cellsOnPath.js";
export type { Excursion } from "./evidence/path/excursion.js";
export { excursionsOnCast } from "./evidence/path/excursionsOnCast.js";
export { type PairOnset, pairOnset } from "./evidence/path/pairOnset.js";
export { type ResponseChange, responseChanges } from "./response/acrossCruise.js";
export type { Alignment, TimeMismatch } from "./response/alignment/alignment.js";
export {
  type ResponseCorrection,
  type CellResponseCorrection,
  removeSensorResponse,
} from "./response/removeSensorResponse.js";
export { type SensorResponse, sensorResponse } from "./response/sensorResponse.js";
export type { LagParts, ThermalLagOnCast } from "./response/lag/thermalLagOnCast.js";
export type { UsualValue } from "./response/usualAnswer.js";
export type { CellLag } from "./response/lag/usualLag.js";
export type { Cause } from "./model/cause.js";
export type { CauseName } from "./causes/index.js";
export { causes } from "./causes/index.js";
export { track } from "./track/track.js";
export type { TrackedCast, TrackedInput } from "./track/tracked.js";
export { type Noise, usualNoise } from "./model/noise.js";
export { type SmoothedCruise, smooth } from "./track/smooth.js";

// Showing
export {
  dilutionSummary,
  type RefusedDilution,
  type WorkedDilution,
} from "./report/terminal/dilutionSummary.js";
export { type CheckedRecord, recordSummary } from "./report/terminal/recordSummary.js";
export { markdownReport } from "./report/markdown/markdownReport.js";
export { report as htmlReport } from "./report/html/report.js";
export { type SummaryStyle, terminalSummary } from "./report/terminal/terminalSummary.js";
export { causes as causesFigure } from "./figures/causes.js";
export { decision as decisionFigure } from "./figures/decision.js";
export {
  type BottleResidual,
  type CellLegs,
  type FigureCast,
  type FigureData,
  figureData,
  type PairValue,
  type PlacedValue,
  type Profile,
} from "./figures/figureData.js";
export { gainTrack as gainTrackFigure } from "./figures/gainTrack.js";
export { legs as legsFigure } from "./figures/legs.js";
export { pair as pairFigure } from "./figures/pair.js";
export { residuals as residualsFigure } from "./figures/residuals.js";
export { responseTrack as responseTrackFigure } from "./figures/responseTrack.js";
export {
  deepThetaSalinity as deepThetaSalinityFigure,
  thetaSalinity as thetaSalinityFigure,
} from "./figures/thetaSalinity.js";

// Invented cruises of known truth
export * from "./simulate/index.js";
