// `foulcast/cleaning`: the ladder, the decision, solutions, the maintenance record. Cautions go wherever steps go.

// Cautions
export { cautionsFor, generalCautions, type Hazard } from "./cleaning/cautions.js";
// Solutions
export { dilute } from "./cleaning/chemistry/dilute.js";
export type { Dilution, DilutionStage } from "./cleaning/chemistry/dilution.js";
export { DilutionRefused } from "./cleaning/chemistry/dilutionRefused.js";
export { checkMixing, type Substance } from "./cleaning/chemistry/mixing.js";
export type {
  AcidStock,
  DetergentStock,
  HypochloriteStock,
  Stock,
} from "./cleaning/chemistry/stock.js";
// The decision
export type { Advice, Alternative } from "./cleaning/decision/advice.js";
export { adviceSchema } from "./cleaning/decision/adviceSchema.js";
export {
  type Belief,
  type BeliefComponent,
  type Circumstances,
  decide,
} from "./cleaning/decision/decide.js";
export { type Costs, defaultCosts } from "./cleaning/decision/loss.js";
// The ladder of intensities
export { defaultLadder } from "./cleaning/ladder/intensities.js";
export type { Figure, Intensity, Ladder, Solution, Step } from "./cleaning/ladder/intensity.js";
export { ladderSchema } from "./cleaning/ladder/ladderSchema.js";
export { readLadder } from "./cleaning/ladder/readLadder.js";
export { volumeNeeded_ml } from "./cleaning/ladder/volumeNeeded.js";
export type { BatteryTrend } from "./cleaning/record/battery.js";
export {
  type BeforeNextCast,
  beforeNextCast,
  beforeNextCastText,
  type NextCastSettings,
} from "./cleaning/record/beforeNextCast.js";
// The maintenance record, what is due, and the list before the next cast
export { checkRecord } from "./cleaning/record/checkRecord.js";
export { cautionsOfDue } from "./cleaning/record/due.js";
export { type Due, dueList, type Occasion } from "./cleaning/record/dueList.js";
export { recordAlone } from "./cleaning/record/recordAlone.js";
export { recordOfCruise } from "./cleaning/record/recordOfCruise.js";
export type { Finding, Severity } from "./cleaning/record/recordRule.js";
export type { MaintenanceRecord, RecordCast } from "./cleaning/record/recordTimeline.js";
export {
  type CleaningOutcome,
  defaultRecovery,
  type Recovery,
  type RecoveryPrior,
  updateRecovery,
} from "./model/recovery.js";
export {
  dilutionSummary,
  type RefusedDilution,
  type WorkedDilution,
} from "./report/terminal/dilutionSummary.js";
export { type CheckedRecord, recordSummary } from "./report/terminal/recordSummary.js";
