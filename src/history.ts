// `foulcast/history`: a cell over cruises. No files: those are read and written by `foulcast/node`.

export { cellYears as cellYearsFigure } from "./figures/cellYears.js";
// Results of a cruise
export { type CellRecord, cellRecordSchema } from "./history/cellRecord.js";
// Comparison of the cells, and one over the years
export { type CleaningTried, type Fleet, type FleetCell, fleetOf } from "./history/fleet.js";
// Results that the next cruise starts from
export {
  type CellAtStart,
  type HistoryPrior,
  priorFromHistory,
} from "./history/priorFromHistory.js";
// Records as text
export { joinRecords, type PlacedRecord, readRecords } from "./history/readRecords.js";
export type { CellPrior } from "./model/cellPrior.js";
export { cellSummary, fleetSummary } from "./report/terminal/historySummary.js";
export { cellHistory } from "./verdict/history/cellHistory.js";
