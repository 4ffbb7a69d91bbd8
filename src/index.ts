// The public face of the pure core: no files, no globals, runs in Node, a browser, a worker, a notebook.
// Files and folders are behind `foulcast/node`, the equations of seawater alone behind `foulcast/seawater`.

// The main job
export { type AssessmentSettings, assessCast, assessCruise } from "./verdict/assessCruise.js";
export type {
  CauseProbability,
  CellVerdict,
  ChangeOfGain,
  DataQuality,
  Estimate,
  EvidenceSummary,
  Forecast,
  Verdict,
  VerdictDocument,
} from "./verdict/verdict.js";
export { verdictSchema } from "./verdict/verdictSchema.js";
export { gainForSalinity, salinityError } from "./verdict/salinityError.js";

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
export { type ReadMaintenance, readMaintenance } from "./read/maintenanceRecord.js";
export { type CruiseDescription, readCruiseDescription } from "./read/cruiseDescription.js";
export { assembleCruise, type CruiseParts } from "./read/assembleCruise.js";

// The steps between, for people who want only one
export { type Legs, splitLegs } from "./cast/splitLegs.js";
export type {
  EvidenceLine,
  LeftOut,
  LineOfEvidence,
  Observation,
  Onset,
} from "./evidence/evidence.js";
export { bottlesEvidence } from "./evidence/bottles.js";
export { legsEvidence } from "./evidence/legs.js";
export { pairEvidence } from "./evidence/pair.js";
export type { Cause } from "./causes/cause.js";
export type { CauseName } from "./causes/causeNames.js";
export { bankOfCauses } from "./causes/index.js";
export { type TrackedCast, type TrackedInput, track } from "./track/track.js";

// Showing
export { type SummaryStyle, terminalSummary } from "./report/terminalSummary.js";

// Invented cruises of known truth
export * from "./simulate/index.js";
