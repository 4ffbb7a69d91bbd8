// `foulcast`: what a pipeline needs. No files, no globals: it runs in Node, a browser, a worker, a notebook.
// The other paths are cleaning.ts, history.ts, steps.ts, simulate/, seawater/ and node/: docs/api.md lists what each exports.

// The main entry point
export { assessCast, assessCruise } from "./verdict/assessCruise.js";
export type { AssessmentSettings } from "./verdict/assessmentSettings.js";
// The same, continued from cast to cast
export {
  addBottles,
  addCast,
  addMaintenance,
  type CruiseOpening,
  openCruise,
  type WithCast,
} from "./verdict/incremental/openCruise.js";
export {
  type CruiseUpdate,
  type CruiseState,
  documentOf,
} from "./verdict/incremental/cruiseState.js";
export { readState, writeState } from "./verdict/incremental/stateText.js";
export { type CorrectedCast, type CorrectedCell, correctCast } from "./verdict/correctCast.js";
export {
  type CastCorrection,
  type CellCorrection,
  type CruiseCorrection,
  correctCruise,
  type LegCorrection,
} from "./verdict/correctCruise.js";
export { gainForSalinity, salinityError } from "./model/salinityError.js";

// The verdict
export type { CauseName } from "./causes/index.js";
export type { Advice, Alternative } from "./cleaning/decision/advice.js";
export type {
  CauseProbability,
  CellVerdict,
  ChangeOfGain,
  CleaningSeen,
  DataQuality,
  Estimate,
  EvidenceSummary,
  Forecast,
  HealthFinding,
  ResponseSeen,
  Verdict,
  VerdictDocument,
} from "./verdict/verdict.js";
export { verdictSchema } from "./verdict/verdictSchema.js";

// Input
export type { Bottle, ClosureReading } from "./cast/bottle.js";
export type { Cast, CastColumns, CellColumns, CellName, LegName } from "./cast/cast.js";
export {
  type Cruise,
  type CruiseCast,
  defaultTarget,
  type Instrument,
  type NextStation,
} from "./cast/cruise.js";
export type { DeepReference } from "./cast/deepReference.js";
export type { InputFile } from "./cast/inputFile.js";
export type { IntensityName, MaintenanceAction, MaintenanceEvent } from "./cast/maintenance.js";
export { checkCruise } from "./read/checkCruise.js";

// Reading text
export { assembleCruise, type CruiseParts } from "./read/assembleCruise.js";
export { BadInput, type Fault, faultSentence } from "./read/badInput.js";
export { readBottlesCsv } from "./read/bottlesCsv.js";
export type { CastFacts } from "./read/castBuilder.js";
export { readCastCsv } from "./read/castCsv.js";
export { type CruiseDescription, readCruiseDescription } from "./read/cruiseDescription.js";
export { readDeepReference } from "./read/deepReferenceCsv.js";
export { readExchangeBottles } from "./read/exchangeBottles.js";
export { readExchangeCast } from "./read/exchangeCast.js";
export { readMaintenance } from "./read/maintenanceRecord.js";

// Output for people
export { report as htmlReport } from "./report/html/report.js";
export { markdownReport } from "./report/markdown/markdownReport.js";
export { type SummaryStyle, terminalSummary } from "./report/terminal/terminalSummary.js";
export { causes as causesFigure } from "./figures/causes.js";
export { decision as decisionFigure } from "./figures/decision.js";
export { type FigureData, figureData } from "./figures/figureData.js";
export { figureStyle } from "./figures/figureStyle.js";
export { gainTrack as gainTrackFigure } from "./figures/gainTrack.js";
export { legs as legsFigure } from "./figures/legs.js";
export { pair as pairFigure } from "./figures/pair.js";
export { profiles as profilesFigure } from "./figures/profiles.js";
export { residuals as residualsFigure } from "./figures/residuals.js";
export { responseTrack as responseTrackFigure } from "./figures/responseTrack.js";
export {
  deepThetaSalinity as deepThetaSalinityFigure,
  thetaSalinity as thetaSalinityFigure,
} from "./figures/thetaSalinity.js";
